# SPDX-License-Identifier: MIT
"""The tables that the programs beside each other are given and give: CSV, one header row."""

import csv


def read_numbers(path):
    """Rows of numbers, without the header."""
    with open(path, newline="", encoding="utf-8") as file:
        rows = csv.reader(file)
        next(rows)
        return [[float(cell) for cell in row] for row in rows]


def read_columns(path):
    """Each column as a list of texts, by its name."""
    with open(path, newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    return {name: [row[name] for row in rows] for name in rows[0]}


def write_rows(path, header, rows):
    with open(path, "w", newline="", encoding="utf-8") as file:
        file.write(header + "\n")
        file.writelines(",".join(repr(float(cell)) for cell in row) + "\n" for row in rows)


def write_column(path, name, values):
    write_rows(path, name, ([value] for value in values))
