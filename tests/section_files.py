"""Reads the tables that `loadpath section` writes."""

import csv


def rows(folder, name):
    with (folder / f"{name}.csv").open(encoding="utf-8") as stream:
        return list(csv.DictReader(stream))


def column(folder, name, heading):
    return {r["property"]: float(r[heading]) for r in rows(folder, name) if r[heading]}
