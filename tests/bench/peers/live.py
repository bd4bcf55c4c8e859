# SPDX-License-Identifier: MIT
"""From the Return key to the end of the paint, through the whole window: what bedlore_bench_window
says, thirty times each."""

import re

from measure import run, say

WANTED = {250: "median < 16 ms, 95 % < 33 ms", 2000: "median < 100 ms"}
LINE = re.compile(r"^(.+?)\s+median\s+([\d.]+) ms\s+95 %\s+([\d.]+) ms", re.MULTILINE)


def add_rows(report, setting, folder):
    for readings in [250] if setting.quick else [250, 2000]:
        say(f"live: {readings} readings")
        done = run([setting.window, readings], folder)
        first = done.output.splitlines()[0]
        for what, median, most in LINE.findall(done.output):
            report.add(
                f"{what}, swim of {readings} readings ({first}), Return to paint: ms",
                f"median {median}, 95 % {most}",
                {},
                "",
                WANTED[readings],
            )
