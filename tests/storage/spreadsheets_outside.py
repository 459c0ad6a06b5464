#!/usr/bin/python3
"""Opens every CSV file of a bundle in LibreOffice as people of five countries have it set up.

Usage: spreadsheets_outside.py WRITE_PAYLOAD
Each file is opened without any choice, and with those of the import dialog (comma, UTF-8, "detect
special numbers"). What must hold in all of them: a column whose name ends in a unit has the very
numbers that were written, a day is that day, and every other cell is the text that Python's csv
module reads. Without a dialog LibreOffice 7.4 asks no byte order mark and takes Windows-1252, so
names beyond ASCII are held to the other way alone. 77: LibreOffice is not installed.
"""
import csv
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile
import xml.etree.ElementTree

LANGUAGES = ["C", "en-US", "de-DE", "es-ES", "fr-FR"]
# Tokens of LibreOffice's CSV filter: comma, double quote, UTF-8, from line 1, no column formats,
# language of the user, quoted cells are read like others, special numbers are detected.
DIALOG = "CSV:44,34,76,1,,0,false,true"
NUMBERS = ("_mg", "_tenths_c", "_tenths_m_s", "_deg", "_s", "_days", "days_given", "seq", "brood_boxes")
DAYS = ("date", "expiry", "lot_expiry")
TABLE = "{urn:oasis:names:tc:opendocument:xmlns:table:1.0}"
OFFICE = "{urn:oasis:names:tc:opendocument:xmlns:office:1.0}"
TEXT = "{urn:oasis:names:tc:opendocument:xmlns:text:1.0}"
wrong = []


def set_up(profile, language):
    if language == "C":
        return
    (profile / "user").mkdir(parents=True)
    (profile / "user" / "registrymodifications.xcu").write_text(
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        '<oor:items xmlns:oor="http://openoffice.org/2001/registry">'
        '<item oor:path="/org.openoffice.Setup/L10N"><prop oor:name="ooSetupSystemLocale" '
        f'oor:op="fuse"><value>{language}</value></prop></item></oor:items>\n')


def opened(files, profile, out, choices):
    call = ["soffice", f"-env:UserInstallation=file://{profile}", "--headless"]
    if choices:
        call.append(f"--infilter={choices}")
    call += ["--convert-to", "fods", "--outdir", str(out)] + [str(f) for f in files]
    subprocess.run(call, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                   timeout=120, env={"PATH": os.environ["PATH"], "LC_ALL": "C", "HOME": str(profile)})
    return {f.name: rows_of(out / (f.stem + ".fods")) for f in files}


def rows_of(file):
    """Rows of (type, value) as the spreadsheet holds them, not as it shows them."""
    rows = []
    for row in xml.etree.ElementTree.parse(file).iter(TABLE + "table-row"):
        cells = []
        for cell in row.iter(TABLE + "table-cell"):
            kind = cell.get(OFFICE + "value-type")
            value = cell.get(OFFICE + "value") or cell.get(OFFICE + "date-value")
            if value is None:
                value = "\n".join(text_of(p) for p in cell.iter(TEXT + "p"))
            cells += [(kind, value)] * int(cell.get(TABLE + "number-columns-repeated", "1"))
        rows += [cells] * min(int(row.get(TABLE + "number-rows-repeated", "1")), 2)
    return rows


def text_of(paragraph):
    text = paragraph.text or ""
    for part in paragraph:
        if part.tag == TEXT + "s":
            text += " " * int(part.get(TEXT + "c", "1"))
        else:
            text += text_of(part)
        text += part.tail or ""
    return text


def holds(name, kind, value, cell):
    if cell == "":
        return value == ""
    if name.endswith(NUMBERS):
        return kind == "float" and value == cell
    if name in DAYS:
        return kind == "date" and value == cell
    if name == "time":  # a time of the day, or its text
        return kind == "time" or value == cell
    if kind == "float":  # the number that a keeper called a hive
        return value == cell and cell.isdigit() and not cell.startswith("0")
    return kind == "string" and value.split() == cell.split()  # line ends become paragraphs


def hold(where, got, want, ascii_alone):
    names = want[0]
    if len(got) < len(want):
        wrong.append(f"{where}: {len(got)} rows of {len(want)}")
        return 0
    checked = 0
    for row, cells in zip(got[1:], want[1:]):
        row = row + [(None, "")] * (len(cells) - len(row))
        for name, (kind, value), cell in zip(names, row, cells):
            if ascii_alone and not cell.isascii():
                continue
            checked += 1
            if not holds(name, kind, value, cell):
                wrong.append(f"{where}: {name}: {cell!r} opens as {kind} {value!r}")
    return checked


def main():
    if not shutil.which("soffice"):
        print("skipped: LibreOffice is not installed")
        return 77
    work = pathlib.Path(tempfile.mkdtemp())
    try:
        subprocess.run([sys.argv[1], "numbers", str(work)], check=True)
        files = sorted(work.glob("*.csv"))
        want = {f.name: list(csv.reader(open(f, encoding="utf-8-sig", newline=""), strict=True))
                for f in files}
        checked = 0
        for language in LANGUAGES:
            profile = work / language
            set_up(profile, language)
            for how, choices in (("no choice", None), ("dialog", DIALOG)):
                got = opened(files, profile, work / f"{language} {how}", choices)
                for name, rows in want.items():
                    checked += hold(f"{language}, {how}, {name}", got[name], rows, not choices)
        doses = [r[want["register.csv"][0].index("dose_mg")] for r in want["register.csv"][1:]]
        if "1000" not in doses or len(files) != 3:
            wrong.append(f"this is not the evening that was meant: {doses} in {files}")
        for line in wrong[:40]:
            print("FAILED:", line)
        print(f"{checked} cells of {len(files)} files compared, as {', '.join(LANGUAGES)} have them")
        return 1 if wrong else 0
    finally:
        shutil.rmtree(work)


sys.exit(main())
