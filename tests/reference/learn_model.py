#!/usr/bin/env python3
"""What courses teach of the keeper's kill, in plain Python from its written rules, against
`duskwalk mites`.

Usage: learn_model.py DUSKWALK [HOW_MANY [SEED]]   compares random cases to 1e-6.
Each point of the grid is a run of mites_model.py of its own; sums of probabilities are made with
many digits by mpmath where it is installed, and the common ratio is found by its own search.
"""
import copy, json, math, random, subprocess, sys
from mites_model import Model, P

try:
    from mpmath import mp, mpf, exp as big_exp
    mp.dps = 40
except ImportError:  # doubles do for all but the last digits
    mpf, big_exp = float, math.exp

Z = [-4 + i / 20 for i in range(161)]
NINETY = 1.2815515655446004


def logit(p):
    return math.log(p / (1 - p))


def kill_of(z, dose, params):
    p = {**P, **params}
    a, b = (logit(p["kill_max"] * (1 - math.exp(-dose / p[key])))
            for key in ("dose_scale_field_g", "dose_scale_exposed_g"))
    return 1 / (1 + math.exp(-((a + b) / 2 + (b - a) / (2 * NINETY) * z)))


def days_of(t):
    days = t["days"] if "days" in t else [t["start"] + j * t.get("interval", 1)
                                          for j in range(t["rounds"])]
    return set(days)


def ratios(course):
    """The model's wash after over the wash before, for each z: one run each."""
    started = Model(course)
    started.start()
    t = course["treatment"]
    rounds, away = days_of(t), min(1, t.get("foragers_away", 0) * t.get("forager_load", .5))
    out = []
    for z in Z:
        m, kill = copy.deepcopy(started), kill_of(z, t["dose_g"], course.get("params", {}))
        for day in range(course["post_day"]):
            if day == course["pre_day"]:
                before = m.wash()
            if day in rounds:
                m.P *= 1 - kill * (1 - away)
                m.res = m.p["residual_days"]
            m.step(day)
        out.append(m.wash() / before)
    return out


def chance(pre, post, r):
    return mpf(r) * post[1] / (pre[1] + mpf(r) * post[1])


def spread(pairs):
    """Overdispersion: the common ratio by secant on the log odds, not by halving."""
    before, after = sum(a[0] for a, _ in pairs), sum(b[0] for _, b in pairs)
    if before == 0 or after == 0:
        return 3.0
    f = lambda x: sum((a[0] + b[0]) * chance(a, b, big_exp(x)) - b[0] for a, b in pairs)
    low, high = mpf(-14), mpf(14)
    while high - low > mpf(10) ** -25 and high - low > 1e-15:
        mid = (low + high) / 2
        low, high = (mid, high) if f(mid) < 0 else (low, mid)
        if mid in (low + 0, high + 0) and high - low < 1e-14:
            break
    r, x2, df = big_exp((low + high) / 2), mpf(0), -1
    for a, b in pairs:
        n = a[0] + b[0]
        if n:
            p = chance(a, b, r)
            x2, df = x2 + (b[0] - n * p) ** 2 / (n * p * (1 - p)), df + 1
    return max(1.0, float((15 + x2) / (5 + df)))


def learn(ask):
    logs, phis = [-mpf(z) ** 2 / 2 for z in map(mpf, Z)], []
    for course in ask["courses"]:
        pairs = list(zip(course["pre"], course["post"]))
        phi = spread(pairs)
        phis.append(phi)
        from_mp = math.log if mpf is float else mp.log
        for i, r in enumerate(ratios(course)):
            for a, b in pairs:
                p = chance(a, b, r)
                logs[i] += ((b[0] * from_mp(p) if b[0] else 0) +
                            (a[0] * from_mp(1 - p) if a[0] else 0)) / phi
    top = max(logs)
    w = [big_exp(x - top) for x in logs]
    total = sum(w)

    def quantile(q):
        below, before = mpf(0), None
        for i, weight in enumerate(w):
            c = (below + weight / 2) / total
            if c >= q:
                return Z[i] if before is None else float(Z[i - 1] + (q - before) / (c - before) / 20)
            below, before = below + weight, c
        return Z[-1]

    z = {name: quantile(q) for name, q in (("p10", mpf(1) / 10), ("p50", mpf(1) / 2), ("p90", mpf(9) / 10))}
    params = ask.get("params", {})
    return {"z": z, "phi": phis,
            "kill": [{"dose_g": g, **{k: kill_of(v, g, params) for k, v in z.items()}}
                     for g in ask["at_dose_g"]]}


def curve(r, low, high):
    return r.choice([round(r.uniform(low, high), 3), sorted(
        [d, round(r.uniform(low, high), 3)] for d in r.sample(range(-60, 100), r.randint(1, 5)))])


def params_of(r):
    return {"worker_cap_day": r.randint(7, 10), "emergence_loss": round(r.uniform(.1, .35), 2),
            "late_share": round(r.uniform(0, .4), 2), "kill_max": round(r.uniform(.6, .99), 3),
            "dose_scale_field_g": round(r.uniform(1, 4), 2), "residual_days": r.randint(0, 6)}


def pairs_of(r):
    """Few mites or many, colonies alike or not, some with none at all."""
    pre, post = [], []
    level, keep = r.choice([.005, .03, .2]), r.choice([.02, .3, 1, 4])
    for _ in range(r.choice([0, 1, 1, 2, 5, 12])):
        n1, n2 = r.choice([1, 100, 300, 8000]), r.choice([1, 150, 300, 7000])
        x = level * r.lognormvariate(0, r.choice([0, 1]))
        cap = lambda m, n: min(int(m), 20 * n)
        pre.append([cap(r.gammavariate(2, x * n1 / 2) + r.random(), n1), n1])
        post.append([cap(r.gammavariate(2, x * keep * n2 / 2) + r.random(), n2), n2])
    if r.random() < .15:
        (r.choice([pre, post]))[:] = [[0, n] for _, n in pre]
    return pre, post


def course_of(r):
    t = {"dose_g": round(r.uniform(.2, 6), 2)}
    if r.random() < .6:
        t.update(start=r.randint(0, 10), rounds=r.randint(0, 7), interval=r.randint(1, 10))
    else:
        t["days"] = [r.randint(0, 60) for _ in range(r.randint(0, 6))]
    if r.random() < .3:
        t.update(foragers_away=round(r.random(), 2), forager_load=round(r.uniform(0, 2), 2))
    pre_day = r.randint(0, 8)
    pre, post = pairs_of(r)
    c = {"colony": {"adults": r.randint(2000, 40000), "adult_mode": r.choice(["fixed", "dynamic"]),
                    "lifespan": curve(r, 20, 140)},
         "laying": {"worker": curve(r, 0, 1800), "drone": curve(r, 0, 60), "cages": sorted(
             [a, a + r.randint(1, 30)] for a in r.sample(range(-40, 50), r.randint(0, 2)))},
         "mites": {r.choice(["wash_per_100", "phoretic", "total"]): round(r.uniform(.1, 9), 3)},
         "treatment": t, "pre_day": pre_day, "post_day": pre_day + r.randint(1, 50),
         "pre": pre, "post": post}
    if r.random() < .3:
        c["immigration"] = curve(r, 0, 20)
    if r.random() < .3:
        c["phoretic_mortality"] = curve(r, 0, .02)
    if r.random() < .3:
        c["params"] = params_of(r)
    return c


def case_of(r):
    ask = {"at_dose_g": [round(r.uniform(.1, 8), 2) for _ in range(r.randint(0, 3))],
           "courses": [course_of(r) for _ in range(r.choice([0, 1, 1, 2, 3]))]}
    if r.random() < .3:
        ask["params"] = params_of(r)
    return ask


def flat(answer):
    return ([*answer["z"].values()] + answer["phi"] +
            [k[name] for k in answer["kill"] for name in ("dose_g", "p10", "p50", "p90")])


def main():
    program, many = sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 12
    r, worst = random.Random(int(sys.argv[3]) if len(sys.argv) > 3 else 20261201), 0
    for n in range(many):
        ask = case_of(r)
        got = json.loads(subprocess.run([program, "mites", "-"], input=json.dumps({"learn": ask}),
                                        text=True, check=True, capture_output=True).stdout)["learn"]
        want = learn(ask)
        a, b = flat(want), flat(got)
        assert len(a) == len(b), (n, want, got)
        for x, y in zip(a, b):
            off = abs(x - y) / max(abs(x), 1)
            worst = max(worst, off)
            assert off < 1e-6, (n, x, y, want, got, ask)
    print(f"{many} cases agree; largest difference {worst:.1e}")


if __name__ == "__main__":
    main()
