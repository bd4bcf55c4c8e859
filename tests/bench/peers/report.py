# SPDX-License-Identifier: MIT
"""The one table, as Markdown."""

import sys

COLUMNS = ["what", "Bedlore", "the others", "Bedlore beside them", "wanted"]


class Report:
    def __init__(self):
        self.rows = []
        self.faults = []  # what must be so and is not

    def add(self, what, ours, others="", beside="", wanted=""):
        """`others` is a text, or a dictionary from name to text."""
        if isinstance(others, dict):
            others = " · ".join(f"{name} {value}" for name, value in others.items())
        self.rows.append([what, ours, others, beside, wanted])
        print(" | ".join(cell for cell in self.rows[-1] if cell), file=sys.stderr, flush=True)

    def fault(self, text):
        self.faults.append(text)

    def markdown(self):
        lines = [COLUMNS, ["---"] * len(COLUMNS), *self.rows]
        return "\n".join(
            "| " + " | ".join(cell.replace("|", "\\|") for cell in row) + " |" for row in lines
        )
