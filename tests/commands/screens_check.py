#!/usr/bin/python3
"""Holds every screen of a played script to its sizes and contrast.

Usage: screens_check.py PICTURES_FOLDER
Reads what `targets` wrote: each target at least 20 x 15 mm and 3 mm from the next, inside the
screen; each text with a contrast of 7:1 or more (WCAG 2.1, 1.4.6), computed here anew from its two
colours, and not cut off; the walk's action button over a quarter of the screen.
"""
import glob
import itertools
import json
import os
import sys

LEAST_W, LEAST_H, GAP = 20.0, 15.0, 3.0  # mm, for gloves: the project's own rule
ROUNDING = 0.02  # mm; the file has two decimals
LEAST_CONTRAST = 7.0

# Pictures every evening must have, in both themes and upright.
WANTED = ("today", "yards", "yard-map", "colony", "kit", "register", "setup", "walk", "gate", "map",
          "dose", "pass-over", "flying", "mishap", "strike", "close", "first-aid", "summary",
          "write-done")


def luminance(colour):
    """Relative luminance of WCAG 2.1."""
    def linear(byte):
        c = byte / 255
        return c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4
    r, g, b = (linear(int(colour[i:i + 2], 16)) for i in (1, 3, 5))
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(ink, ground):
    a, b = sorted((luminance(ink), luminance(ground)))
    return (b + 0.05) / (a + 0.05)


def gap(a, b):
    """Distance of two rectangles along the axis that separates them; negative: they overlap."""
    across = max(a["x"] - b["x"] - b["w"], b["x"] - a["x"] - a["w"])
    down = max(a["y"] - b["y"] - b["h"], b["y"] - a["y"] - a["h"])
    return max(across, down)


def faults_of(page):
    screen = page["screen"]["mm"]
    for t in page["targets"]:
        mm = t["mm"]
        if mm["w"] < LEAST_W - ROUNDING or mm["h"] < LEAST_H - ROUNDING:
            yield f"\"{t['label']}\" is {mm['w']} x {mm['h']} mm"
        outside = (mm["x"] < 0 or mm["y"] < 0 or mm["x"] + mm["w"] > screen["w"] + ROUNDING
                   or mm["y"] + mm["h"] > screen["h"] + ROUNDING)
        if outside:
            yield f"\"{t['label']}\" leaves the screen"
    for a, b in itertools.combinations(page["targets"], 2):
        if gap(a["mm"], b["mm"]) < GAP - ROUNDING:
            yield f"\"{a['label']}\" and \"{b['label']}\" are {gap(a['mm'], b['mm']):.2f} mm apart"
    for text in page["texts"]:
        ratio = contrast(text["colour"], text["ground"])
        if ratio < LEAST_CONTRAST:
            yield f"\"{text['text']}\" has a contrast of {ratio:.2f}"
        if abs(ratio - text["contrast"]) > 0.02:
            yield f"\"{text['text']}\": contrast {ratio:.2f}, the file says {text['contrast']}"
        if text["cut"]:
            yield f"\"{text['text']}\" is cut off"


def action_share(page):
    """The largest target as a part of the screen."""
    whole = page["screen"]["px"]["w"] * page["screen"]["px"]["h"]
    return max(t["px"]["w"] * t["px"]["h"] for t in page["targets"]) / whole


def is_walk_in_hand(page):
    """The walk screen itself: it alone has all of these buttons."""
    labels = {t["label"] for t in page["targets"]}
    return {"Menu", "Dose", "Skip", "Flying", "Problem", "Undo last"} <= labels


def main():
    files = sorted(glob.glob(sys.argv[1] + "/*.json"))
    bad = walks = texts = 0
    for file in files:
        page = json.load(open(file, encoding="utf-8"))
        name = os.path.basename(file)[:-5]
        texts += len(page["texts"])
        faults = list(faults_of(page))
        if is_walk_in_hand(page):
            walks += 1
            share = action_share(page)
            if share <= 0.25:
                faults.append(f"the action button has {share:.3f} of the screen")
        for fault in faults:
            print(f"FAILED: {name}: {fault}")
        bad += len(faults)
    names = " ".join(os.path.basename(f) for f in files)
    for screen in WANTED:
        if f"-{screen}" not in names:
            print(f"FAILED: no picture of {screen}")
            bad += 1
    for look in ("-sun.", "-dusk.", "-sun-tall.", "-dusk-tall."):
        if look not in names:
            print(f"FAILED: no picture {look}")
            bad += 1
    if walks < 10:
        print(f"FAILED: only {walks} pictures of the walk")
        bad += 1
    print(f"{len(files)} screens, {walks} of them the walk, {texts} texts: {bad} faults")
    return 1 if bad else 0


sys.exit(main())
