#!/usr/bin/env python3
"""Makes case_mapping.inc and pattern_blocks.inc, the Unicode data that FEEL's string functions need.

Capital and small letters come from Python's unicodedata (its Unicode version is written into the file), names of blocks
from the Unicode Consortium's Blocks.txt of the same version, given as the argument:

    make_unicode_tables.py Blocks.txt
"""

import pathlib
import sys
import unicodedata

FOLDER = pathlib.Path(__file__).parent
CODE_POINTS = [c for c in range(0x110000) if not 0xD800 <= c < 0xE000]


def mapped(change):
    """One-to-one mappings as (code point, difference), and the others as (code point, text)."""
    single, several = [], []
    for c in CODE_POINTS:
        text = change(chr(c))
        if text == chr(c):
            continue
        if len(text) == 1:
            single.append((c, ord(text) - c))
        else:
            several.append((c, text))
    return single, several


def runs(single):
    """Code points one or two apart with the same difference, as (first, last, step, difference)."""
    i = 0
    while i < len(single):
        best, step = i, 1
        for distance in (1, 2):
            j = i
            while j + 1 < len(single) and single[j + 1] == (single[j][0] + distance, single[i][1]):
                j += 1
            if j > best:
                best, step = j, distance
        yield single[i][0], single[best][0], step, single[i][1]
        i = best + 1


def array(kind, name, rows):
    return f"constexpr {kind} {name}[] = {{\n" + "".join(f"    {row},\n" for row in rows) + "};\n"


def header(version):
    return f"// Made by make_unicode_tables.py from Unicode {version}. Do not edit.\n\n// clang-format off\n"


def utf8(text):
    return '"' + "".join(f"\\x{byte:02X}" for byte in text.encode()) + '"'


def case_mapping():
    text = header(unicodedata.unidata_version)
    for name, change in (("upper", str.upper), ("lower", str.lower)):
        single, several = mapped(change)
        rows = [f"{{0x{a:X}, 0x{b:X}, {step}, {d}}}" for a, b, step, d in runs(single)]
        text += array("CaseRun", f"{name}_runs", rows)
        text += array("CaseText", f"{name}_texts", [f"{{0x{c:X}, {utf8(t)}}}" for c, t in several])
    return text


def blocks(path):
    lines = path.read_text(encoding="utf-8").splitlines()
    version = lines[0].removeprefix("# Blocks-").removesuffix(".txt")
    rows = []
    for line in lines:
        if line and not line.startswith("#"):
            span, name = line.split("; ")
            first, last = span.split("..")
            rows.append(f'{{"{name.replace(" ", "")}", 0x{first}, 0x{last}}}')
    return header(version) + array("Block", "blocks", rows)


(FOLDER / "case_mapping.inc").write_text(case_mapping())
(FOLDER / "pattern_blocks.inc").write_text(blocks(pathlib.Path(sys.argv[1])))
