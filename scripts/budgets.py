#!/usr/bin/env python3
"""Holds what a visitor fetches against its budget: files of a build, packed as a host packs them (gzip -9).

    scripts/budgets.py [FOLDER]

Ends with 1 where something is over its budget. A budget is what was reached, and a little: lower it when more is saved.
"""
import gzip
import pathlib
import sys

# What it is, which files, at most how many KB.
BUDGETS = [
    ("until the first screen stands", ["index.html", "app-*.css"], 17),
    ("until \"8 t\" shows machines", ["index.html", "app-*.css", "loader.js", "first.js", "solver.js", "pairwright-finder-*", "table/demo.json"], 220),
    ("the program", ["pairwright-app-*.wasm"], 1480),
    ("all that is fetched for the main job", ["index.html", "app-*.css", "loader.js", "first.js", "solver*.js", "pairwright-app-*", "pairwright-finder-*", "table/demo.json"], 1670),
    ("the program for spreadsheets, when one is given", ["importer.js", "pairwright-importer-*"], 740),
    ("a host page with an element out of sight", ["pairwright-fit.js", "pairwright.js"], 6),
]


def packed(path):
    return len(gzip.compress(path.read_bytes(), 9, mtime=0))


def main():
    folder = pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else "dist")
    over = False
    for what, patterns, most in BUDGETS:
        files = [found for pattern in patterns for found in (sorted(folder.glob(pattern)) or [None])]
        if None in files:
            sys.exit(f"{folder} is no whole build: it lacks one of {', '.join(patterns)}. Run: make build")
        size = sum(map(packed, files)) / 1024
        too_much = size > most
        over |= too_much
        print(f"{size:8.1f} KB of {most:5} KB  {what}{'   TOO MUCH' if too_much else ''}")
    if over:
        sys.exit("Over budget: see what the program consists of (make size), or raise the budget in scripts/budgets.py and say why.")


main()
