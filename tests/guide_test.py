#!/usr/bin/env python3
"""Each file, folder and name of the code that DEVELOPERS.md names is there.

What stands in `...` is asked for: a path, or the end of one, with * for any letters; and a name such
as `Store::merge`, whose last part has to stand in a header. NAME, FOLDER and the like are the
reader's own.
"""
import fnmatch
import os
import pathlib
import re
import sys

TOP = pathlib.Path(__file__).resolve().parent.parent
ENDING = r"\.(cpp|h|py|sh|play|md|txt|tsv|cmake|json)$"
PLACEHOLDER = r"[A-Z]{4,}(?!\w*\.(md|txt))|[$={]"


def tree():
    """Files and folders below the top, without what is built or kept by git."""
    found = []
    for at, folders, files in os.walk(TOP):
        folders[:] = [f for f in folders if f not in (".git", "build")]
        found += ["/" + os.path.relpath(os.path.join(at, name), TOP) for name in folders + files]
    return found


def is_path(word):
    if word.startswith("/") or " " in word or re.search(PLACEHOLDER, word):
        return False
    return "/" in word or re.search(ENDING, word) is not None


def stands(word, paths):
    """A name without its ending stands for its header or, of a test, its source."""
    ends = [word.rstrip("/")] + ([] if re.search(ENDING, word) else [word + ".h", word + ".cpp"])
    return any(fnmatch.fnmatchcase(p, "*/" + end) for end in ends for p in paths)


def main():
    words = set(re.findall(r"`([^`\n]+)`", (TOP / "DEVELOPERS.md").read_text()))
    paths = tree()
    named = [w for w in words if is_path(w)]
    missing = [w for w in named if not stands(w, paths)]
    headers = "\n".join((TOP / p[1:]).read_text() for p in paths
                        if p.endswith(".h") and p.startswith(("/engine", "/storage", "/ui")))
    scoped = [w for w in words if re.fullmatch(r"\w+(::\w+)+", w) and not w.startswith("std::")]
    missing += [w for w in scoped if not re.search(rf"\b{w.split('::')[-1]}\b", headers)]
    if len(named) < 50 or len(scoped) < 10:
        missing.append(f"only {len(named)} paths and {len(scoped)} names were found to ask for")
    for word in sorted(missing):
        print(f"DEVELOPERS.md: `{word}` is not there")
    print(f"{len(named)} paths, {len(scoped)} names")
    return 1 if missing else 0


if __name__ == "__main__":
    sys.exit(main())
