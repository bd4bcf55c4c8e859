# SPDX-License-Identifier: MIT
"""How near the bed comes to real lakebeds, and how honest its stated error is, beside what else a
person could make of the same soundings. Every program is judged at the same places: on a lattice
inside the hull of the readings, and at real soundings."""

import dataclasses
import json

from case_peers import merge_coincident, peers
from measure import Failed, run, say
from scores import (
    coverage,
    coverage_by_thirds,
    crps,
    geometric_mean,
    interval_score,
    mean_score,
    rmse,
)
from tables import read_columns, read_numbers

SETS = {"grid": "lattice", "soundings": "real soundings"}
# Real soundings have errors of their own, a decimetre or two, of which an error stated of the bed
# knows nothing: what it is worth is asked of the lattice.
ASKED = "grid"
QUICK_CASES = 2


@dataclasses.dataclass
class Case:
    """Errors are lists of bed minus truth [m], by the set of places."""

    name: str
    soundings: int
    seconds: float  # of the fit
    bed: dict  # the program's errors
    stated: dict  # and what it states of them
    others: dict  # from peer to its errors
    left_out: float | None = None  # of the TIN, leaving one out: root mean square [m]
    filled: dict = dataclasses.field(default_factory=dict)  # from peer to how many places


def by_set(names, values):
    return {key: [v for name, v in zip(names, values, strict=True) if name == key] for key in SETS}


def measure_case(path, setting, folder, others):
    done = run([setting.programs / "bedlore_bench_case", path, folder], folder)
    merge_coincident(folder)
    truth = read_columns(folder / "truth.csv")
    level = [float(cell) for cell in truth["level_m"]]
    bed = read_columns(folder / "bedlore.csv")

    def errors(levels):
        return by_set(truth["set"], [a - b for a, b in zip(levels, level, strict=True)])

    case = Case(
        name=path.name,
        soundings=len(read_numbers(folder / "soundings.csv")),
        seconds=json.loads(done.output)["fit"],
        bed=errors([float(cell) for cell in bed["level_m"]]),
        stated=by_set(truth["set"], [float(cell) for cell in bed["error_m"]]),
        others={},
    )
    for peer in others:
        if peer.missing:
            continue
        try:
            levels, said = peer.levels(folder)
        except Failed as failure:
            say(f"cases: {path.name}, {peer.name}: {failure}")
            continue
        say(f"cases: {path.name}, {peer.name}: {said}")
        case.others[peer.name] = errors(levels)
        case.filled[peer.name] = said["filled"]
        if peer.name == "TIN":
            case.left_out = said["left_out"]
    return case


def add_case(report, case, others):
    for key, name in SETS.items():
        count = len(case.bed[key])
        mine = rmse(case.bed[key])
        theirs = {peer: rmse(errors[key]) for peer, errors in case.others.items()}
        cells = {
            peer.name: f"{theirs[peer.name]:.3f}"
            if peer.name in theirs
            else peer.missing or "failed"
            for peer in others
        }
        best = min(theirs, key=theirs.get, default=None)
        report.add(
            f"{case.name}, {case.soundings} soundings, {count} places ({name}): RMSE, m",
            f"{mine:.3f}",
            cells,
            f"{mine / theirs[best]:.3f} of the best ({best})" if best else "",
        )


def add_ratios(report, cases, others):
    """Against each of the others over all cases that it has an answer for."""
    for key, name in SETS.items():
        ratios = {}
        for peer in others:
            each = [
                rmse(case.bed[key]) / rmse(case.others[peer.name][key])
                for case in cases
                if peer.name in case.others
            ]
            if each:
                ratios[peer.name] = each
        if not ratios:
            continue
        means = {peer: geometric_mean(each) for peer, each in ratios.items()}
        # The best single one is the one that leaves least of our lead.
        best = max(means, key=means.get)
        of_best = geometric_mean(
            rmse(case.bed[key]) / min(rmse(errors[key]) for errors in case.others.values())
            for case in cases
            if case.others
        )
        report.add(
            f"all {len(cases)} cases ({name}): Bedlore's RMSE over theirs, geometric mean",
            "1",
            {
                peer: f"{means[peer]:.3f} (better in {sum(r < 1.0 for r in each)} of {len(each)})"
                for peer, each in ratios.items()
            },
            f"{means[best]:.3f} of the best single one ({best}); {of_best:.3f} of the best of all, "
            "picked for each case with the truth",
            "under 1",
        )


def constant(case, key, s):
    return [s] * len(case.bed[key])


def add_score(report, cases, key, score, word):
    """The stated error beside one constant: of a TIN what leaving out one sounding shows; of our
    own bed its RMSE, the right one on average, which nobody has who does not know the truth."""
    mine = [mean_score(score, case.bed[key], case.stated[key]) for case in cases]
    own = [
        mean_score(score, case.bed[key], constant(case, key, rmse(case.bed[key])))
        for case in cases
    ]
    wins = sum(a < b for a, b in zip(mine, own))
    others = {"own bed, s its RMSE everywhere": f"{geometric_mean(own):.4f}"}
    beside = (
        f"{geometric_mean(a / b for a, b in zip(mine, own)):.3f} of own with s its RMSE "
        f"(better in {wins} of {len(cases)})"
    )
    tin = {
        i: mean_score(score, case.others["TIN"][key], constant(case, key, case.left_out))
        for i, case in enumerate(cases)
        if case.left_out is not None
    }
    if tin:
        others["TIN, s from leaving one out"] = f"{geometric_mean(tin.values()):.4f}"
        wins = sum(mine[i] < theirs for i, theirs in tin.items())
        beside += (
            f"; {geometric_mean(mine[i] / theirs for i, theirs in tin.items()):.3f} of TIN "
            f"(better in {wins} of {len(tin)})"
        )
    report.add(
        f"all {len(cases)} cases ({SETS[key]}): {word}, geometric mean, m",
        f"{geometric_mean(mine):.4f}",
        others,
        beside,
        "under 1" if key == ASKED else "",
    )


def add_coverage(report, cases):
    for key, name in SETS.items():
        inside = [coverage(case.bed[key], case.stated[key]) for case in cases]
        thirds = [coverage_by_thirds(case.bed[key], case.stated[key]) for case in cases]
        mean = [sum(column) / len(cases) for column in zip(*thirds)]
        tin = [
            coverage(case.others["TIN"][key], [case.left_out] * len(case.bed[key]))
            for case in cases
            if case.left_out is not None
        ]
        report.add(
            f"all {len(cases)} cases ({name}): truth within 1.96 s, %, mean (least and most)",
            f"{100 * sum(inside) / len(inside):.1f} ({100 * min(inside):.1f} to "
            f"{100 * max(inside):.1f}); by thirds of s, small to large: "
            + ", ".join(f"{100 * share:.1f}" for share in mean),
            {"TIN, s from leaving one out": f"{100 * sum(tin) / len(tin):.1f}"} if tin else {},
            "",
            "95" if key == ASKED else "less: they have an error of their own",
        )


def add_filled(report, cases, others):
    """Places are the readings' as noted, the truth lies inside the hull of where they really were:
    a few lie outside for those that end there."""
    total = sum(len(case.bed[key]) for case in cases for key in SETS)
    cells = {
        peer.name: str(sum(case.filled.get(peer.name, 0) for case in cases))
        for peer in others
        if not peer.missing
    }
    what = f"places of {total} that got the nearest sounding's level for want of another"
    report.add(what, "0", cells)


def add_rows(report, setting, folder):
    others = peers()
    paths = sorted(path.parent for root in setting.cases for path in root.glob("*/truth_grid.csv"))
    if not paths:
        raise Failed(f"no case in {', '.join(map(str, setting.cases))}")
    cases = []
    for path in paths[:QUICK_CASES] if setting.quick else paths:
        say(f"cases: {path.name}")
        try:
            cases.append(measure_case(path, setting, folder, others))
        except Failed as failure:
            report.fault(f"{path.name}: {failure}")
            continue
        add_case(report, cases[-1], others)
    if not cases:
        return
    add_ratios(report, cases, others)
    for key in SETS:
        add_score(report, cases, key, crps, "CRPS")
        add_score(report, cases, key, interval_score, "interval score (95 %)")
    add_coverage(report, cases)
    add_filled(report, cases, others)
    report.add(
        "time of a case's fit, s: median (most)",
        f"{sorted(case.seconds for case in cases)[len(cases) // 2]:.2f} "
        f"({max(case.seconds for case in cases):.2f})",
    )
