#!/usr/bin/python3
"""The JSON Schemas of `order`, `mites` and `due`, checked by Debian's python3-jsonschema (JSON Schema
2020-12): they are schemas, what the program reads and prints holds to them, and what the program
refuses for a key that it does not know or that is missing, they refuse too.
Usage: schemas_test.py DUSKWALK PLAYED_FOLDER CORPUS. 77: python3-jsonschema is not installed."""
import copy
import glob
import json
import os
import shutil
import subprocess
import sys
import tempfile

try:
    from jsonschema import Draft202012Validator
except ImportError:
    print("skipped: python3-jsonschema is not installed")
    sys.exit(77)

duskwalk, played, corpus = (os.path.abspath(word) for word in sys.argv[1:])
wrong = []


def need(truth, what):
    if not truth:
        wrong.append(what)


def call(*words, given=None):
    done = subprocess.run([duskwalk, *words], input=given, capture_output=True, text=True)
    return done.returncode, done.stdout, done.stderr


def schema_of(command):
    code, text, _ = call(command, "--schema")
    need(code == 0, f"{command} --schema: exit {code}")
    schema = json.loads(text)
    Draft202012Validator.check_schema(schema)
    return schema


def part(schema, name):
    return Draft202012Validator({"$ref": f"#/$defs/{name}", "$defs": schema["$defs"]})


def first_wrong(validator, value):
    return next((f"{list(e.path)}: {e.message[:120]}" for e in validator.iter_errors(value)), None)


def both_refuse(command, validator, value, what):
    code, _, said = call(command, "-", given=json.dumps(value))
    need(code == 2, f"{command}: takes {what}: {said}")
    need(first_wrong(validator, value), f"{command}: the schema takes {what}")


def check_order():
    schema = schema_of("order")
    case, plan = part(schema, "case"), part(schema, "plan")
    yard = {"walk_mps": 1.1, "gate": [-8, -5], "vaporizers": 1, "cloths": 3, "seal_s": 600,
            "handling_s": {"load_and_set": 20, "lift_and_cover": 10, "uncover": 6},
            "colonies": [{"id": "A1", "at": [0, 0], "dwell_s": 90},
                         {"id": "A2", "at": [2, 0], "dwell_s": 90}]}
    under_way = copy.deepcopy(yard) | {"now_s": 100, "operator_at": [0, 0], "finish_by_s": 4000,
                                       "wind_from_deg": 270}
    under_way["colonies"][0] |= {"stage": "covered", "since_s": 90, "cloth": 2}
    for value in (yard, under_way):
        need(first_wrong(case, value) is None, f"order: case: {first_wrong(case, value)}")
        code, out, said = call("order", "-", given=json.dumps(value))
        need(code == 0, f"order refuses what its schema takes: {said}")
        need(first_wrong(plan, json.loads(out)) is None,
             f"order: plan: {first_wrong(plan, json.loads(out))}")
    for key in yard:
        both_refuse("order", case, {k: v for k, v in yard.items() if k != key}, f"no {key}")
    both_refuse("order", case, yard | {"colour": 1}, "a strange key")
    both_refuse("order", case, yard | {"cloths": 0}, "no cloths")
    both_refuse("order", case, yard | {"walk_mps": -1}, "a walk backwards")
    lost = copy.deepcopy(under_way)
    del lost["colonies"][0]["since_s"]
    both_refuse("order", case, lost, "a stage without its since_s")
    strange = copy.deepcopy(yard)
    strange["colonies"][0]["weight"] = 3
    both_refuse("order", case, strange, "a strange key of a colony")


def check_mites():
    schema = schema_of("mites")
    question = part(schema, "question")
    asked = 0
    for file in sorted(glob.glob(corpus + "/mites/seed-*")):
        try:
            value = json.load(open(file, encoding="utf-8"))
        except ValueError:
            continue
        asked += 1
        need(first_wrong(question, value) is None,
             f"mites: {os.path.basename(file)}: {first_wrong(question, value)}")
        for key, inner in value.items():
            if isinstance(inner, dict):
                both_refuse("mites", question, value | {key: inner | {"colour": 1}},
                            f"a strange key of {key} in {os.path.basename(file)}")
        both_refuse("mites", question, value | {"colour": 1}, "a strange key")
    need(asked >= 8, f"mites: only {asked} questions")


def check_due():
    schema = schema_of("due")
    validator = Draft202012Validator(schema)
    work = tempfile.mkdtemp()
    try:
        seen = set()
        for script in ("evening", "season"):
            for file in glob.glob(f"{played}/{script}/{script}.journal*"):
                shutil.copy(file, work)
            store = f"{work}/{script}.journal"
            for on in ("2026-05-01", "2026-07-20", "2026-08-14", "2026-08-16", "2026-08-25",
                       "2026-09-20"):
                code, out, said = call("due", "--json", "--on", on, "--store", store)
                need(code == 0, f"due: {said}")
                due = json.loads(out)
                need(first_wrong(validator, due) is None,
                     f"due {script} {on}: {first_wrong(validator, due)}")
                seen |= {key for key, value in due.items() if value}
                for key in schema["required"]:
                    less = {k: v for k, v in due.items() if k != key}
                    need(first_wrong(validator, less), f"due: the schema does without {key}")
        need({"counts", "come_backs"} <= seen, f"due: nothing but {sorted(seen)} was ever there")
    finally:
        shutil.rmtree(work)


check_order()
check_mites()
check_due()
for line in wrong[:40]:
    print("FAILED:", line)
print("order, mites and due hold to their schemas")
sys.exit(1 if wrong else 0)
