#!/usr/bin/env python3
"""What a WebAssembly program consists of: the largest functions, and the share of each crate.

    scripts/size.py PROGRAM.wasm

The program must have its names (`strip = "none"`). Sizes are raw; a phone loads about two fifths of them. A function belongs to the crate
that its name begins with; one that implements a trait for a type of another crate belongs to that of the type.
"""
import re
import sys
from collections import Counter

LARGEST = 20


def number(data, at):
    """An unsigned LEB128 number and the place behind it."""
    value = shift = 0
    while True:
        byte = data[at]
        at += 1
        value |= (byte & 0x7F) << shift
        shift += 7
        if byte < 0x80:
            return value, at


def text(data, at):
    length, at = number(data, at)
    return data[at : at + length].decode("utf-8", "replace"), at + length


def sections(data):
    if data[:8] != b"\0asm\1\0\0\0":
        sys.exit("This is no WebAssembly program of version 1.")
    at = 8
    while at < len(data):
        kind = data[at]
        length, at = number(data, at + 1)
        yield kind, data[at : at + length]
        at += length


def imported_functions(section):
    count, at = number(section, 0)
    functions = 0
    for _ in range(count):
        _, at = text(section, at)
        _, at = text(section, at)
        kind, at = section[at], at + 1
        if kind == 0:
            functions += 1
            _, at = number(section, at)
        elif kind == 3:
            at += 2
        else:
            at += kind == 1
            flags, at = number(section, at)
            for _ in range(1 + (flags & 1)):
                _, at = number(section, at)
    return functions


def bodies(section):
    count, at = number(section, 0)
    for _ in range(count):
        length, at = number(section, at)
        yield length
        at += length


def names(section):
    """The names of functions, by number."""
    _, at = text(section, 0)
    while at < len(section):
        kind = section[at]
        length, at = number(section, at + 1)
        if kind == 1:
            count, place = number(section, at)
            for _ in range(count):
                index, place = number(section, place)
                name, place = text(section, place)
                yield index, name
        at += length


ESCAPES = {"$LT$": "<", "$GT$": ">", "$RF$": "&", "$BP$": "*", "$LP$": "(", "$RP$": ")", "$C$": ",", "..": "::"}


def demangled(name):
    """A name as it stands in the source, from the older of the compiler's two ways to write it; any other as it is."""
    if not name.startswith("_ZN"):
        return re.sub(r"::h[0-9a-f]{16}$", "", name)
    at, path = 3, []
    while at < len(name) and name[at].isdigit():
        length = re.match(r"\d+", name[at:]).group()
        at += len(length)
        path.append(name[at : at + int(length)].lstrip("_") if name[at : at + 2] == "_$" else name[at : at + int(length)])
        at += int(length)
    text = "::".join(part for part in path if not re.fullmatch(r"h[0-9a-f]{16}", part))
    for written, meant in ESCAPES.items():
        text = text.replace(written, meant)
    return re.sub(r"\$u([0-9a-f]{2})\$", lambda found: chr(int(found.group(1), 16)), text)


def crate(name):
    found = re.match(r"[<&(\[*]*(?:dyn |mut |const )?(\w+)(?=::)", name)
    return found.group(1) if found else "other"


def main():
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    data = open(sys.argv[1], "rb").read()
    first, sizes, known, parts = 0, [], {}, Counter()
    for kind, section in sections(data):
        if kind == 2:
            first = imported_functions(section)
        elif kind == 10:
            sizes = list(bodies(section))
        elif kind == 0 and text(section, 0)[0] == "name":
            known = dict(names(section))
            continue
        parts["code" if kind == 10 else "data" if kind == 11 else "other"] += len(section)
    if not known:
        sys.exit("The program has no names: build it with CARGO_PROFILE_RELEASE_STRIP=none.")
    functions = [(size, demangled(known.get(first + place, "?"))) for place, size in enumerate(sizes)]
    shares = Counter()
    for size, name in functions:
        shares[crate(name)] += size
    whole = sum(sizes)
    print(f"code {parts['code'] // 1024} KB in {len(sizes)} functions, data {parts['data'] // 1024} KB, the rest {parts['other'] // 1024} KB\n")
    print(f"The {LARGEST} largest functions, bytes")
    for size, name in sorted(functions, reverse=True)[:LARGEST]:
        print(f"{size:9}  {name[:140]}")
    print("\nCrates, KB of code")
    for name, size in shares.most_common():
        if size * 200 > whole:
            print(f"{size / 1024:9.1f}  {100 * size / whole:5.1f} %  {name}")


main()
