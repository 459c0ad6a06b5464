#!/usr/bin/python3
"""keeper.xlsx, read back by openpyxl and by LibreOffice. Usage: workbook_readback.py WRITE_PAYLOAD
What must hold: every cell says what register.csv, day.csv and stock.csv say, as a number in the
unit of its head, a day, or text; no cell is a formula; heads stay in sight and have filters.
77: openpyxl or LibreOffice is not installed."""
import csv
import datetime
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

try:
    import openpyxl
except ImportError:
    print("skipped: python3-openpyxl is not installed")
    sys.exit(77)
if not shutil.which("soffice"):
    print("skipped: LibreOffice is not installed")
    sys.exit(77)

UNITS = {"_mg": (" (g)", 1000), "_tenths_c": (" (°C)", 10), "_tenths_m_s": (" (m/s)", 10),
         "_deg": (" (deg)", 1), "_s": (" (s)", 1)}
FORMULAS = ("=", "+", "-", "@", "\t", "\r", "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20")
WHOLE = ("days_given", "withdrawal_days", "brood_boxes", "seq")
DAYS = ("date", "lot_expiry", "expiry")
wrong = []


def need(truth, what):
    if not truth:
        wrong.append(what)


def scale_of(name):
    """What a cell of the CSV file is divided by; None: it is text."""
    for end, (_, scale) in UNITS.items():
        if name.endswith(end):
            return scale
    return 1 if name in WHOLE else None


def title_of(name):
    for end, (unit, _) in UNITS.items():
        if name.endswith(end):
            return name[:-len(end)].replace("_", " ") + unit
    return name.replace("_", " ")


def want(name, cell):
    if cell == "":
        return None
    if name in DAYS:
        return datetime.datetime.strptime(cell, "%Y-%m-%d")
    scale = scale_of(name)
    if scale:
        return int(cell) / scale
    if cell[0] == "'" and may_be_marked(cell):
        cell = cell[1:]
    return cell.replace("\r\n", "\n").replace("\r", "\n")


def may_be_marked(cell):  # storage/text/csv_out.h
    rest = cell.lstrip("'")
    digits = any(c in "0123456789" for c in rest)
    if rest.isdigit() and len(rest) <= 15 and (rest == "0" or rest[0] != "0"):
        return False
    return rest.startswith(FORMULAS) or (digits and not rest.strip("0123456789.,:/%() -eE'"))


def hold(sheet, rows, where):
    names = rows[0]
    got = list(sheet.iter_rows(values_only=True))
    need(list(got[0][:len(names)]) == [title_of(n) for n in names], f"{where}: heads {got[0]}")
    need(len(got) == len(rows), f"{where}: {len(got)} rows of {len(rows)}")
    for line, (row, cells) in enumerate(zip(got[1:], rows[1:]), 2):
        for name, value, cell in zip(names, row, cells):
            value = value.replace("\r\n", "\n").replace("_x000D_", "\r").replace("\r\n", "\n").replace(
                "\r", "\n") if isinstance(value, str) else value
            same = value == want(name, cell) or (isinstance(value, (int, float)) and isinstance(
                want(name, cell), float) and abs(value - want(name, cell)) < 1e-9)
            need(same, f"{where}, row {line}: {name}: {value!r}, not {want(name, cell)!r}")


def main():
    work = pathlib.Path(tempfile.mkdtemp())
    try:
        for which in ("hostile", "numbers"):
            folder = work / which
            folder.mkdir()
            subprocess.run([sys.argv[1], which, str(folder)], check=True)
            book = openpyxl.load_workbook(folder / "keeper.xlsx")
            need(book.sheetnames == ["Day", "Register", "Stock"], f"sheets {book.sheetnames}")
            for title, file in (("Day", "day"), ("Register", "register"), ("Stock", "stock")):
                rows = list(csv.reader(open(folder / f"{file}.csv", encoding="utf-8-sig",
                                            newline=""), strict=True))
                sheet = book[title]
                need(sheet.freeze_panes == "A2", f"{title}: the heads do not stay in sight")
                need(sheet.auto_filter.ref is not None, f"{title}: no filters")
                for row in sheet.iter_rows():
                    for cell in row:
                        need(cell.data_type != "f", f"{title}: a formula: {cell.value!r}")
                hold(sheet, rows, f"{which}, {title}")
            again = work / "again"
            again.mkdir(exist_ok=True)
            subprocess.run([sys.argv[1], which, str(again)], check=True)
            need((again / "keeper.xlsx").read_bytes() == (folder / "keeper.xlsx").read_bytes(),
                 "the same rows give other bytes")
        subprocess.run(["soffice", f"-env:UserInstallation=file://{work}/profile", "--headless",
                        "--convert-to", "csv", "--outdir", str(work / "seen"),
                        str(work / "numbers" / "keeper.xlsx")], check=True, timeout=120,
                       stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                       env={"PATH": os.environ["PATH"], "HOME": str(work), "LC_ALL": "C"})
        need((work / "seen" / "keeper.csv").stat().st_size > 500, "LibreOffice shows nothing")
        for line in wrong[:40]:
            print("FAILED:", line)
        print("keeper.xlsx: three sheets read back by openpyxl", openpyxl.__version__, "and LibreOffice")
        return 1 if wrong else 0
    finally:
        shutil.rmtree(work)


sys.exit(main())
