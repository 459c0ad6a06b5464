#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Collects the texts of the program for translators, and checks the translations.

translations.py update   writes assets/translations/duskwalk.pot and takes new texts into each .po
translations.py check    fails where the .pot is stale, or a translation is missing, fuzzy, or has
                         other placeholders than its English text
translations.py selftest shows that each of these faults is found
"""
import pathlib
import re
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
HERE = ROOT / "assets/translations"
KEYWORDS = ["tr:1", "tr_in:1c,2", "tr_many:1,2", "to_translate:1"]
PLACEHOLDER = re.compile(r"\{\{|\}\}|\{([^{}]*)\}")


def run(*words):
    return subprocess.run(words, check=True, text=True, stdout=subprocess.PIPE, cwd=ROOT).stdout


def pot():
    """The template, without the time of writing, so that the same texts give the same bytes."""
    sources = sorted(str(p.relative_to(ROOT)) for top in ("engine", "storage", "ui")
                     for p in (ROOT / top).rglob("*.cpp"))
    text = run("xgettext", "--language=C++", "--from-code=UTF-8", "--keyword", "--sort-output", "--force-po",
               *(f"--keyword={k}" for k in KEYWORDS), "--no-location", "--width=100",
               "--package-name=duskwalk", "--output=-", *sources)
    text = re.sub(r'"POT-Creation-Date:.*\n', "", text)
    text = text.replace("charset=CHARSET", "charset=UTF-8")
    # The flags that xgettext guesses are about printf; our placeholders are those of fmt.
    return re.sub(r"^#, (?:(?:no-)?c-format|c\+\+-format)\n", "", text, flags=re.MULTILINE)


def unquoted(lines):
    parts = re.findall(r'"((?:[^"\\]|\\.)*)"', "\n".join(lines))
    return "".join(parts).replace('\\"', '"').replace("\\n", "\n").replace("\\\\", "\\")


def entries(text):
    """Each entry as a dictionary of msgctxt, msgid, msgid_plural, msgstr..., and fuzzy."""
    for block in re.split(r"\n\s*\n", text):
        entry = {"fuzzy": bool(re.search(r"^#,.*\bfuzzy\b", block, re.MULTILINE))}
        live = [line for line in block.splitlines() if not line.startswith("#")]
        for key, lines in re.findall(r'^(msg\w+(?:\[\d\])?) ((?:".*"\n?)+)', "\n".join(live) + "\n",
                                     re.MULTILINE):
            entry[key] = unquoted([lines])
        if entry.get("msgid"):
            yield entry


def placeholders(text):
    """What must be the same: numbered where it is not, in any order."""
    found, at = [], 0
    for match in PLACEHOLDER.finditer(text):
        inside = match.group(1)
        if inside is None:
            continue  # a brace that is shown
        name, _, how = inside.partition(":")
        found.append((name or str(at), how))
        at += 1
    return sorted(found)


def faults_of(entry):
    name = entry["msgid"]
    if entry["fuzzy"]:
        yield f'fuzzy: "{name}"'
    strings = {k: v for k, v in entry.items() if k.startswith("msgstr")}
    for key, said in strings.items():
        if not said:
            yield f'not translated: "{name}"'
            continue
        english = [entry["msgid"]] + ([entry["msgid_plural"]] if "msgid_plural" in entry else [])
        if placeholders(said) not in [placeholders(e) for e in english]:
            yield f'other placeholders: "{name}": "{said}"'
    if not strings:
        yield f'not translated: "{name}"'


def faults_in(po, template):
    found = [fault for entry in entries(po) for fault in faults_of(entry)]
    have = {(e.get("msgctxt"), e["msgid"]) for e in entries(po)}
    want = {(e.get("msgctxt"), e["msgid"]) for e in entries(template)}
    found += [f'missing: "{text}"' for _, text in sorted(want - have, key=str)]
    return found + [f'no longer in the program: "{text}"' for _, text in sorted(have - want, key=str)]


def check():
    template = pot()
    found = []
    if (HERE / "duskwalk.pot").read_text() != template:
        found.append("duskwalk.pot is stale: packaging/translations.py update")
    for path in sorted(HERE.glob("*.po")):
        run("msgfmt", "--check-header", "--output-file=/dev/null", str(path))
        found += [f"{path.name}: {fault}" for fault in faults_in(path.read_text(), template)]
    print("\n".join(found) or f"{len(list(entries(template)))} texts, all translated")
    return 1 if found else 0


def update():
    (HERE / "duskwalk.pot").write_text(pot())
    for path in sorted(HERE.glob("*.po")):
        subprocess.run(("msgmerge", "--quiet", "--update", "--backup=none", "--no-fuzzy-matching",
                        "--width=100", str(path), str(HERE / "duskwalk.pot")), check=True)
        path.write_text(run("msgattrib", "--no-obsolete", "--width=100", str(path)))
    return 0


def selftest():
    template = 'msgid "{} of {}"\nmsgstr ""\n'
    good = 'msgid "{} of {}"\nmsgstr "{} de {}"\n'
    rows = [("as it should be", good, None),
            ("turned round by number", good.replace("{} de {}", "{1}, {0}"), None),
            ("one lost", good.replace("{} de {}", "{} de"), "other placeholders"),
            ("one changed", good.replace("{} de {}", "{} de {:d}"), "other placeholders"),
            ("empty", good.replace("{} de {}", ""), "not translated"),
            ("fuzzy", "#, fuzzy\n" + good, "fuzzy"),
            ("not there", "", "missing"),
            ("left over", good + '\nmsgid "Gone"\nmsgstr "Ido"\n', "no longer")]
    wrong = 0
    for name, po, fault in rows:
        found = faults_in(po, template)
        if (len(found) == 0) if fault is None else any(f.startswith(fault) for f in found):
            continue
        wrong += 1
        print(f"{name}: wanted {fault}, found {found}")
    return 1 if wrong else 0


if __name__ == "__main__":
    calls = {"update": update, "check": check, "selftest": selftest}
    if len(sys.argv) != 2 or sys.argv[1] not in calls:
        sys.exit(__doc__)
    sys.exit(calls[sys.argv[1]]())
