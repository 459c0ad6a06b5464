#!/usr/bin/python3
"""Workbooks that others wrote come in as they were meant: openpyxl's and LibreOffice's, in the
languages of the keepers, and crafted ones that must be refused in one line.

Usage: workbooks_in_test.py DUSKWALK
77: openpyxl or LibreOffice is not installed.
"""
import datetime
import json
import os
import pathlib
import pty
import shutil
import subprocess
import sys
import tempfile
import zipfile

try:
    import openpyxl
except ImportError:
    print("openpyxl is not installed")
    sys.exit(77)
if not shutil.which("soffice"):
    print("LibreOffice is not installed")
    sys.exit(77)

DUSKWALK = sys.argv[1]
WORK = pathlib.Path(tempfile.mkdtemp())
bad = 0

# The same two sheets in three languages. Numbers are typed cells, days typed days.
HIVES = {
    "en": ["Apiary", "Hive", "Brood boxes", "Supers", "x (m)", "y (m)", "Notes", "Queen"],
    "de": ["Bienenstand", "Volk", "Brutzargen", "Honigräume", "x (m)", "y (m)", "Notizen", "Queen"],
    "es": ["Colmenar", "Colmena", "Cámara de cría", "Alzas melarias", "x (m)", "y (m)", "Nota", "Queen"],
    "fr": ["Rucher", "Ruche", "Corps de couvain", "Hausses", "x (m)", "y (m)", "Remarques", "Queen"],
}
COUNTS = {
    "en": ["Date", "Hive", "Mites", "Bees", "Method"],
    "de": ["Datum", "Volk", "Milben", "Bienen", "Methode"],
    "es": ["Fecha", "Colmena", "Ácaros", "Abejas", "Método"],
    "fr": ["Date", "Ruche", "Acariens", "Abeilles", "Méthode"],
}
METHOD = {"en": "alcohol wash", "de": "Auswaschung", "es": "lavado con alcohol", "fr": "lavage à l'alcool"}
HIVE_ROWS = [["Upper Field", "U1", 2, True, 1.5, -0.25, "gate, left", "white"],
             ["Upper Field", 17, 1, False, 0, 12, "two\nlines", None],
             ["Colmenar Ñandú", "=B", 9, False, -0.05, 0, 'a "quote"\tand tab', None]]
DAYS = [datetime.date(2026, 8, 3), datetime.date(2026, 7, 12)]


def fail(words):
    global bad
    bad = 1
    print("FAILED:", words)


def expected():
    hives = [("Upper Field", "U1", 2, True, 150, -25, "gate, left Queen: white"),
             ("Upper Field", "17", 1, False, 0, 1200, "two lines"),
             ("Colmenar Ñandú", "=B", 9, False, -5, 0, 'a "quote" and tab')]
    return sorted([list(h) for h in hives] + [["U1", "2026-08-03", 6], ["17", "2026-07-12", 0]], key=repr)


def by_openpyxl(name, language):
    book = openpyxl.Workbook()
    hidden = book.active
    hidden.title, hidden.sheet_state = "hidden", "hidden"
    hidden.append(["Apiary", "Hive"])
    hidden.append(["Nowhere", "N1"])
    hives = book.create_sheet("Völker")
    counts = book.create_sheet("Milben")
    for sheet, rows in ((hives, [HIVES[language]] + HIVE_ROWS),
                        (counts, [COUNTS[language], [DAYS[0], "U1", 6, 300, METHOD[language]],
                                  [DAYS[1], 17, 0, 250, METHOD[language]]])):
        for r, row in enumerate(rows, 1):
            for c, value in enumerate(row, 1):
                cell = sheet.cell(r, c)
                cell.value = value
                if isinstance(value, str):
                    cell.data_type = "s"  # "=B" is a hive's name
                if isinstance(value, datetime.date):
                    cell.number_format = "dd/mm/yyyy"
    book.active = 1
    book.save(name)


def by_office(name, to, language):
    """The same workbook as LibreOffice writes it, set up for `language`."""
    profile = WORK / f"profile-{language}"
    (profile / "user").mkdir(parents=True, exist_ok=True)
    locale = {"en": "en-US", "de": "de-DE", "es": "es-ES", "fr": "fr-FR"}[language]
    (profile / "user" / "registrymodifications.xcu").write_text(
        '<?xml version="1.0" encoding="UTF-8"?>\n<oor:items xmlns:oor="http://openoffice.org/2001/registry">'
        '<item oor:path="/org.openoffice.Setup/L10N"><prop oor:name="ooSetupSystemLocale" oor:op="fuse">'
        f"<value>{locale}</value></prop></item></oor:items>\n")
    out = WORK / f"{to}-{language}"
    subprocess.run(["soffice", f"-env:UserInstallation=file://{profile}", "--headless", "--convert-to", to,
                    "--outdir", str(out), str(name)], check=True, stdout=subprocess.DEVNULL,
                   stderr=subprocess.DEVNULL, timeout=120,
                   env={"PATH": os.environ["PATH"], "LC_ALL": "C", "HOME": str(profile)})
    return out / (name.stem + "." + to)


def duskwalk(*words):
    return subprocess.run([DUSKWALK, *map(str, words)], capture_output=True, text=True, stdin=subprocess.DEVNULL)


def taken(where, book):
    """What stands in a farm that read both sheets of `book`."""
    store = WORK / f"{where}.journal"
    for sheet in ("Völker", "Milben"):
        done = duskwalk("read", book, "--sheet", sheet, "--store", store)
        if done.returncode != 0 or ", 0 refused" not in done.stdout:
            fail(f"{where}: {sheet}: {done.stdout}{done.stderr}")
    again = duskwalk("read", book, "--store", store)  # the first that is not hidden
    if " 0 added, 0 changed" not in again.stdout or 'Sheet "Völker"' not in again.stdout:
        fail(f"{where}: a second reading: {again.stdout}{again.stderr}")
    bags = WORK / f"{where}.bags"
    bags.mkdir()
    duskwalk("bundle", bags, "--store", store)
    things, names = [], {}
    for journal in bags.glob("*/data/*.jsonl"):
        for line in journal.read_text().splitlines():
            event = json.loads(line)
            event = event.get("event", event)
            body, kind = event["body"], event["kind"]
            if kind == "yard_added":
                names[body["yard"]] = body["name"]
            if kind == "colony_added":
                names[body["colony"]] = body["name"]
                spot = body.get("spot") or {}
                things.append([names[body["yard"]], body["name"], body["brood_boxes"], body["supers_on"],
                               spot.get("x_cm"), spot.get("y_cm"),
                               " ".join(body.get("note", "").split())])
            if kind == "count_taken":
                things.append([names[body["colony"]], body["on"], body["mites"]])
    got = sorted(things, key=repr)
    if got != expected():
        fail(f"{where}:\n  got  {got}\n  want {expected()}")


def crafted(name, parts):
    with zipfile.ZipFile(WORK / name, "w", zipfile.ZIP_DEFLATED) as archive:
        for part, text in parts.items():
            archive.writestr(part, text)
    return WORK / name


RELATION = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"


def xlsx_parts(sheet, head="", strings="", styles=""):
    return {
        "_rels/.rels": f'<r><Relationship Id="a" Type="{RELATION}/officeDocument" Target="/w/b.xml"/></r>',
        "w/b.xml": f'<workbook xmlns:r="{RELATION}">{head}<sheets><sheet name="S" r:id="x"/></sheets></workbook>',
        "w/_rels/b.xml.rels": f'<r><Relationship Id="x" Type="{RELATION}/worksheet" Target="s.xml"/>'
                              f'<Relationship Id="y" Type="{RELATION}/sharedStrings" Target="t.xml"/>'
                              f'<Relationship Id="z" Type="{RELATION}/styles" Target="f.xml"/></r>',
        "w/s.xml": sheet, "w/t.xml": f"<sst>{strings}</sst>", "w/f.xml": f"<styleSheet>{styles}</styleSheet>"}


def row(number, *cells):
    return f'<row r="{number}">' + "".join(cells) + "</row>"


def text_cell(words):
    return f'<c t="inlineStr"><is><t>{words}</t></is></c>'


HEAD = row(1, text_cell("Yard"), text_cell("Hive"), text_cell("Date"), text_cell("Mites"),
           text_cell("Bees"), text_cell("Method"))


def count_row(number, day, style, hive='<c t="s"><v>0</v></c>'):
    return row(number, text_cell("Brook"), hive, f'<c s="{style}"><v>{day}</v></c>', "<c><v>6</v></c>",
               "<c><v>300</v></c>", text_cell("alcohol wash"))


def days_as_written():
    """Days by the numbers that ECMA-376 18.17.4.1 gives: 46235 is 2026-08-01 from 1900."""
    styles = '<numFmts><numFmt numFmtId="170" formatCode="[$-407]d. mmmm&quot; h&quot; yyyy"/>' \
             '<numFmt numFmtId="171" formatCode="0&quot;days&quot;"/></numFmts>' \
             '<cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="170"/><xf numFmtId="171"/></cellXfs>'
    strings = "<si><r><t>B</t></r><r><t>1</t></r><rPh><t>said</t></rPh></si>"
    for name, head, serial in (("since1900", "", 46235), ("since1904", '<workbookPr date1904="1"/>', 46235 - 1462)):
        sheet = "<worksheet><sheetData>" + HEAD + count_row(3, serial, 1) + count_row(4, serial + 1.75, 2) + \
            count_row(5, serial, 3) + "</sheetData></worksheet>"
        book = crafted(f"{name}.xlsx", xlsx_parts(sheet, head, strings, styles))
        store = WORK / f"{name}.journal"
        seed = WORK / "seed.csv"
        seed.write_text("Yard,Hive\nBrook,B1\n")
        duskwalk("read", seed, "--store", store)
        said = duskwalk("read", book, "--store", store).stdout
        for want in ("row 3: added:", "2026-08-01", "row 4: added:", "2026-08-02", "row 5: refused:"):
            if want not in said:
                fail(f"{name}: no {want!r} in: {said}")


def refused():
    plain = "<worksheet><sheetData>" + HEAD + "</sheetData></worksheet>"
    office = "urn:oasis:names:tc:opendocument:xmlns:"
    ods = f'<o:document-content xmlns:o="{office}office:1.0" xmlns:t="{office}table:1.0" xmlns:p="{office}text:1.0">' \
          '<t:table t:name="S"><t:table-row t:number-rows-repeated="1048576"><t:table-cell ' \
          't:number-columns-repeated="16384"><p:p>yard</p:p></t:table-cell></t:table-row></t:table></o:document-content>'
    whole = crafted("whole.xlsx", xlsx_parts(plain)).read_bytes()
    (WORK / "cut.xlsx").write_bytes(whole[:len(whole) // 2])
    (WORK / "locked.xlsx").write_bytes(b"\xd0\xcf\x11\xe0" + bytes(600))
    entities = '<!DOCTYPE a [<!ENTITY b "x">]><worksheet><sheetData/></worksheet>'
    cases = [
        (WORK / "cut.xlsx", "damaged"), (WORK / "locked.xlsx", "own file"),
        (crafted("entities.xlsx", xlsx_parts(entities)), "document type"),
        (crafted("broken.xlsx", xlsx_parts("<worksheet><sheetData>")), "cannot be read"),
        (crafted("empty.xlsx", xlsx_parts("<worksheet/>")), "holds no cells"),
        (crafted("text.zip", {"a.txt": "hello"}), "no workbook"),
        (crafted("bomb.ods", {"content.xml": ods}), "500 columns"),
        (crafted("back.xlsx", xlsx_parts("<worksheet>" + row(2, text_cell("Yard")) + row(1, text_cell("a")) +
                                         "</worksheet>")), "not in order"),
    ]
    for file, words in cases:
        store = WORK / "never.journal"
        done = duskwalk("read", file, "--store", store)
        if done.returncode != 2 or done.stdout or done.stderr.count("\n") != 1 or words not in done.stderr:
            fail(f"{file.name}: {done.returncode} {done.stdout}{done.stderr} (wanted: {words})")
        if store.exists():
            fail(f"{file.name}: left a store behind")
    done = duskwalk("read", WORK / "en.xlsx", "--sheet", "Nope", "--store", WORK / "never.journal")
    if done.returncode != 2 or "Völker, Milben" not in done.stderr:
        fail(f"a sheet that is not there: {done.stderr}")


def at_a_terminal(store, answer, *more):
    """The call with a terminal on both sides; what it printed, and how it ended."""
    child, terminal = pty.fork()
    if child == 0:
        os.execv(DUSKWALK, [DUSKWALK, "read", str(WORK / "seed.csv"), "--store", str(store), *more])
    os.write(terminal, answer)
    said = b""
    while True:
        try:
            piece = os.read(terminal, 4096)
        except OSError:
            break
        if not piece:
            break
        said += piece
    return said.decode(), os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


def asked_first():
    store = WORK / "asked.journal"
    said, code = at_a_terminal(store, b"n\n")
    if code != 1 or "2 rows" in said or "1 rows would be added" not in said or store.exists():
        fail(f"a no at the terminal: {code} {said}")
    said, code = at_a_terminal(store, b"y\n")
    if code != 0 or "Take this in?" not in said or "1 added" not in said or not store.exists():
        fail(f"a yes at the terminal: {code} {said}")
    said, code = at_a_terminal(store, b"")
    if code != 0 or "Take this in?" in said:
        fail(f"asked although nothing is new: {code} {said}")
    said, code = at_a_terminal(WORK / "unasked.journal", b"", "--yes")
    if code != 0 or "Take this in?" in said:
        fail(f"asked in spite of --yes: {code} {said}")


try:
    for language in HIVES:
        book = WORK / f"{language}.xlsx"
        by_openpyxl(book, language)
        taken(f"openpyxl-{language}", book)
    for language, kind in (("de", "ods"), ("de", "xlsx"), ("fr", "ods"), ("es", "ods")):
        taken(f"office-{language}-{kind}", by_office(WORK / f"{language}.xlsx", kind, language))
    days_as_written()
    refused()
    asked_first()
finally:
    shutil.rmtree(WORK)
print("workbooks of openpyxl and LibreOffice came in as they were meant" if not bad else "see above")
sys.exit(bad)
