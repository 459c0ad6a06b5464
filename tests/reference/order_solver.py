#!/usr/bin/python3
"""`duskwalk order` beside a general constraint solver, MiniZinc with Gecode, that proves the optimum.

Usage: order_solver.py DUSKWALK [HOW_MANY]. Exit 77: MiniZinc is not installed.

order_solver.mzn states the rules. Every time goes in as whole hundredths of a second, rounded down:
the solver's optimum is never above the true one. All that takes time in these yards is whole
hundredths already, but for the ways: one to each step and one back. So the true optimum lies below
the solver's plus a hundredth for each way (`slack`), and a plan has to lie between the two: exactly
where it says that it is proven, else up to 0.05 % above.
"""
import json, math, random, shutil, subprocess, sys
from pathlib import Path

MODEL = Path(__file__).with_name("order_solver.mzn")
STAGES = ["todo", "vapor", "covered", "done"]
HAIR = 1e-5  # s, of the sums on both sides


def yard(dice, n):
    layout = dice.choice(["row", "pallet", "scattered", "ring"])
    place = {"row": lambda i: [1.6 * i, 0], "scattered": lambda i: [dice.uniform(0, 40), dice.uniform(0, 30)],
             "pallet": lambda i: [4 * (i // 4) + .6 * (i % 2), .6 * (i // 2 % 2)],
             "ring": lambda i: [5 * math.cos(6.283185 * i / n), 5 * math.sin(6.283185 * i / n)]}[layout]
    return {"walk_mps": dice.choice([.8, 1.1, 1.4]), "gate": [-8, -5], "vaporizers": dice.randint(1, 2),
            "cloths": dice.randint(1, 3), "seal_s": dice.choice([0, 120, 300, 600]),
            "handling_s": {"load_and_set": 20, "lift_and_cover": 10, "uncover": 6},
            "colonies": [{"id": f"H{i}", "at": place(i), "dwell_s": dice.randint(6000, 12000) / 100}
                         for i in range(n)]}


def in_mid_walk(case, plan, done):
    """After so many steps of the plan; the last took some hundredths longer than planned."""
    case = json.loads(json.dumps(case))
    by = {c["id"]: c for c in case["colonies"]}
    for step in plan["steps"][:done]:
        c = by[step["colony"]]
        c["stage"] = {"set": "vapor", "cover": "covered", "uncover": "done"}[step["do"]]
        c["since_s"] = case["now_s"] = math.ceil(step["end_s"] * 100) / 100
        c.pop("cloth", None)
        if step["do"] == "cover":
            c["cloth"] = step["cloth"]
        case["operator_at"] = c["at"]
    return case


def asked(program, case):
    return json.loads(subprocess.run([program, "order", "-"], input=json.dumps(case), text=True, check=True,
                                     capture_output=True).stdout)


def down(seconds):
    return math.floor(seconds * 100 + 1e-6)


def in_turn(case):
    """When a walk is over that does what is left one colony after the other: no optimum is later."""
    here, t = case.get("operator_at", case["gate"]), case.get("now_s", 0)
    for c in case["colonies"]:
        t += math.dist(here, c["at"]) / case["walk_mps"] + sum(case["handling_s"].values())
        t, here = t + c["dwell_s"] + case["seal_s"], c["at"]
    return t + math.dist(here, case["gate"]) / case["walk_mps"]


def solved(case, latest=None):
    """The optimum in seconds: the earliest finish, or with `latest` the longest seal by then."""
    left = [c for c in case["colonies"] if c.get("stage") != "done"]
    places = [c["at"] for c in left] + [case.get("operator_at", case["gate"]), case["gate"]]
    work = case["handling_s"]
    data = {"vaporizers": case["vaporizers"], "cloths": case["cloths"], "n": len(left),
            "now": down(case.get("now_s", 0)), "asked_seal": down(case["seal_s"]), "longer_seal": latest is not None,
            "latest": down(in_turn(case) if latest is None else latest),
            "handling": [down(work[k]) for k in ("load_and_set", "lift_and_cover", "uncover")],
            "next_kind": [1 + STAGES.index(c.get("stage", "todo")) for c in left],
            "dwell": [down(c["dwell_s"]) for c in left], "since": [down(c.get("since_s", 0)) for c in left],
            "walk": [[down(math.dist(a, b) / case["walk_mps"]) for b in places] for a in places]}
    run = subprocess.run(["minizinc", "--solver", "gecode", str(MODEL), "--cmdline-json-data", json.dumps(data)],
                         capture_output=True, text=True)
    lines = run.stdout.split()
    assert run.returncode == 0 and lines[-1] == "==========", (run.stdout, run.stderr)  # proven, that line says
    best = json.loads(run.stdout.split("----------")[-2])
    return best["finish" if latest is None else "seal"] / 100


def compare(program, case):
    """Holds the plan to the solver; how far it is above, in seconds."""
    plan, best = asked(program, case), solved(case)
    slack = .01 * (3 * len(case["colonies"]) + 1)
    over = plan["finish_s"] - best
    told = (plan["finish_s"], best, case)
    assert over >= -HAIR, ("finishes before the optimum", *told)
    may = 0 if plan["proven_optimal"] else .0005
    assert over < slack + may * best + HAIR, ("not the optimum", plan["proven_optimal"], *told)
    assert plan["lower_bound_s"] < best + slack + HAIR, ("bound above the optimum", plan["lower_bound_s"], *told)
    return over


def compare_seal(program, case, by):
    """The same for the longest seal there is time for, and the time that the plan may take."""
    plan = asked(program, dict(case, finish_by_s=by))
    slack = .01 * (3 * len(case["colonies"]) + 1)
    most, least = solved(case, by), solved(case, by - slack)  # the true one lies between
    told = (plan["shortest_seal_s"], least, most, by, case)
    assert plan["finish_s"] <= by + HAIR, ("finishes late", plan["finish_s"], *told)
    assert plan["shortest_seal_s"] < most + .01 + HAIR, ("a longer seal than there is time for", *told)
    assert plan["shortest_seal_s"] > least - .0005 * by - HAIR, ("not the longest seal", *told)


def main():
    program, many = sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 9
    if not shutil.which("minizinc"):
        print("skipped: minizinc is not installed")
        sys.exit(77)
    dice, over = random.Random(20261126), []
    for i in range(many):
        case = yard(dice, 3 + i % 3)
        over.append(compare(program, case))
        plan = asked(program, case)
        later = in_mid_walk(case, plan, dice.randrange(1, len(plan["steps"])))
        over.append(compare(program, later))
        if i % 3 < 2:
            compare_seal(program, case, round(plan["finish_s"] + dice.uniform(1, 300), 2))
        wind = asked(program, dict(case, wind_from_deg=dice.randrange(360)))
        assert wind["finish_s"] < 1.03 * plan["finish_s"] + HAIR, (wind["finish_s"], plan["finish_s"], case)
    print(f"{many} yards, fresh and in mid-walk: no plan more than {max(over):.3f} s above the solver's optimum, "
          "which is rounded down")


main()
