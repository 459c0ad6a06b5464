#!/usr/bin/python3
"""Plans of `duskwalk order` judged by the rules of a yard walk, in another language.

Usage: order_check.py DUSKWALK [HOW_MANY]. Yards in rows, on pallets, scattered and in rings, fresh
and in mid-walk, with and without wind and a time to be back. Shares nothing with the program. Time
downwind is sampled every 0.05 s, so it is held to 1 s.
"""
import json, math, random, subprocess, sys

HAIR = 0.05  # s


def yard(dice):
    n, layout = dice.randint(1, 14), dice.choice(["rows", "pallets", "scattered", "ring"])
    side = max(1, math.isqrt(2 * n))
    place = {"rows": lambda i: [1.6 * (i % side), 2.5 * (i // side)],
             "pallets": lambda i: [5.0 * (i // 4 % 5) + 0.6 * (i % 2), 6.0 * (i // 20) + 0.6 * (i // 2 % 2)],
             "scattered": lambda i: [dice.uniform(0, 40), dice.uniform(0, 30)],
             "ring": lambda i: [(3 + n / 4) * math.cos(6.283185 * i / n), (3 + n / 4) * math.sin(6.283185 * i / n)]}
    case = {"walk_mps": dice.choice([0.8, 1.1, 1.4]), "gate": [-8, -5], "vaporizers": dice.randint(1, 3),
            "cloths": dice.randint(1, 14), "seal_s": dice.choice([0, 120, 300, 600]),
            "handling_s": {"load_and_set": 20, "lift_and_cover": 10, "uncover": 6},
            "colonies": [{"id": f"H{i}", "at": place[layout](i), "dwell_s": dice.uniform(60, 120)} for i in range(n)]}
    if dice.random() < .3:
        case["wind_from_deg"] = dice.uniform(0, 360)
    return case


def asked(program, case):
    return json.loads(subprocess.run([program, "order", "-"], input=json.dumps(case), text=True, check=True,
                                     capture_output=True).stdout)


def walk_s(case, a, b):
    return math.dist(a, b) / case["walk_mps"]


def fault(case, plan):
    by = {c["id"]: dict(c) for c in case["colonies"]}
    for c in by.values():
        c.setdefault("stage", "todo")
    work = {"set": "load_and_set", "cover": "lift_and_cover", "uncover": "uncover"}
    goes = {"set": ("todo", "vapor"), "cover": ("vapor", "covered"), "uncover": ("covered", "done")}
    here, t, shortest = case.get("operator_at", case["gate"]), case.get("now_s", 0), math.inf
    for s in plan["steps"]:
        c, do = by[s["colony"]], s["do"]
        if c["stage"] != goes[do][0]:
            return f"{do} {s['colony']} while {c['stage']}"
        if s["start_s"] < t + walk_s(case, here, c["at"]) - HAIR:
            return f"{do} {s['colony']} sooner than one can be there"
        if abs(s["end_s"] - s["start_s"] - case["handling_s"][work[do]]) > HAIR:
            return f"{do} {s['colony']} is not as long as the work"
        if do == "cover" and s["start_s"] < c["since_s"] + c["dwell_s"] - HAIR:
            return f"short dwell {s['colony']}"
        if do == "uncover":
            shortest = min(shortest, s["start_s"] - c["since_s"])
            if s["start_s"] < c["since_s"] + case["seal_s"] - HAIR:
                return f"short seal {s['colony']}"
            if c.get("cloth") and c["cloth"] != s["cloth"]:
                return f"another cloth off {s['colony']}"
        c["stage"], c["since_s"], c["cloth"] = goes[do][1], s["end_s"], s.get("cloth")
        lying = [x["cloth"] for x in by.values() if x["stage"] == "covered"]
        if len(lying) > case["cloths"] or len(set(lying)) < len([x for x in lying if x]):
            return f"cloths after {do} {s['colony']}"
        if any(x and not 1 <= x <= case["cloths"] for x in lying):
            return "a cloth that is not there"
        if sum(x["stage"] == "vapor" for x in by.values()) > case["vaporizers"]:
            return f"vaporizers after {do} {s['colony']}"
        here, t = c["at"], s["end_s"]
    left = [c["id"] for c in by.values() if c["stage"] != "done"]
    if left:
        return f"not finished: {left}"
    if abs(plan["finish_s"] - t - walk_s(case, here, case["gate"])) > HAIR:
        return "finish"
    if plan["lower_bound_s"] > plan["finish_s"] + HAIR:
        return "bound above the finish"
    if math.isfinite(shortest) and abs(plan["shortest_seal_s"] - shortest) > HAIR:
        return "shortest seal"
    wind = downwind(case, plan)
    return None if abs(wind - plan["downwind_s"]) < 1 else f"downwind {plan['downwind_s']}, sampled {wind}"


def downwind(case, plan):
    if "wind_from_deg" not in case:
        return 0
    to = math.radians(case["wind_from_deg"] + 180)
    at, vapor = {c["id"]: c["at"] for c in case["colonies"]}, {}
    for c in case["colonies"]:
        if c.get("stage") == "vapor":
            vapor[c["id"]] = [c["since_s"], math.inf]
        if c.get("stage") == "covered":
            vapor[c["id"]] = [c["since_s"], c["since_s"] + 120]
    for s in plan["steps"]:
        if s["do"] == "set":
            vapor[s["colony"]] = [s["end_s"], math.inf]
        elif s["do"] == "cover":
            vapor[s["colony"]][1] = s["end_s"] + 120
        else:
            vapor[s["colony"]][1] = min(vapor[s["colony"]][1], s["end_s"])
    here, t, total = case.get("operator_at", case["gate"]), case.get("now_s", 0), 0
    for place, end in [(at[s["colony"]], s["end_s"]) for s in plan["steps"]] + [(case["gate"], plan["finish_s"])]:
        way, begin = walk_s(case, here, place), t
        while t < end:
            part = min(1, (t - begin) / way) if way else 1
            x, y = here[0] + part * (place[0] - here[0]), here[1] + part * (place[1] - here[1])
            for who, (a, b) in vapor.items():
                dx, dy = x - at[who][0], y - at[who][1]
                far = math.hypot(dx, dy)
                if a <= t < b and 1e-9 < far <= 10 and dx * math.sin(to) + dy * math.cos(to) >= far * math.cos(math.pi / 4) - 1e-9:
                    total += HAIR
                    break
            t += HAIR
        here, t = place, end
    return total


def in_mid_walk(case, plan, done):
    case = json.loads(json.dumps(case))
    by = {c["id"]: c for c in case["colonies"]}
    for s in plan["steps"][:done]:
        c = by[s["colony"]]
        c["stage"], c["since_s"] = {"set": "vapor", "cover": "covered", "uncover": "done"}[s["do"]], s["end_s"]
        c.pop("cloth", None)
        if s["do"] == "cover":
            c["cloth"] = s["cloth"]
        case["now_s"], case["operator_at"] = s["end_s"], c["at"]
    return case


def main():
    program, many = sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 12
    dice = random.Random(20261126)
    for n in range(many):
        case = yard(dice)
        plan = asked(program, case)
        assert not fault(case, plan), (fault(case, plan), case)
        later = in_mid_walk(case, plan, dice.randrange(len(plan["steps"])))
        again = asked(program, later)
        assert not fault(later, again), (fault(later, again), later)
        if "wind_from_deg" not in case:
            assert again["finish_s"] <= plan["finish_s"] * 1.01 + HAIR, (again["finish_s"], plan["finish_s"], later)
            spare = dict(case, finish_by_s=plan["finish_s"] + dice.uniform(0, 900))
            longer = asked(program, spare)
            assert not fault(spare, longer), (fault(spare, longer), spare)
            assert longer["finish_s"] <= spare["finish_by_s"] + HAIR
    print(f"{many} yards, each fresh, in mid-walk and with time to spare: every plan keeps the rules")


main()
