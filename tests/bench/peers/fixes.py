# SPDX-License-Identifier: MIT
"""Many fixes to a grid: the program beside gdal_grid, GMT and scipy. Each reads a table of text and
leaves a grid on the disk; measured from start to end of its process."""

import json
import sys
from pathlib import Path

import numpy as np
from osgeo import gdal

import made_bed
from measure import Failed, median, missing_program, missing_scipy, run, run_all, say
from scores import exponent

HERE = Path(__file__).parent
gdal.UseExceptions()

SIZES = [50, 500, 2_000, 10_000, 50_000, 200_000, 1_000_000]
FITTED_FROM = 2_000
# Inverse distances to every fix take fixes times cells: over this it is stopped, and not tried with
# more fixes [s].
LIMIT = 60.0

VRT = """<OGRVRTDataSource><OGRVRTLayer name="fixes">
<SrcDataSource>fixes.csv</SrcDataSource><GeometryType>wkbPoint</GeometryType>
<GeometryField encoding="PointFromColumns" x="east_m" y="north_m"/>
<Field name="depth_m" type="Real"/>
</OGRVRTLayer></OGRVRTDataSource>
"""


class Peer:
    """A program that makes a grid of depths of fixes.csv in a folder."""

    def __init__(self, name, missing, commands, read, limit=None):
        self.name = name
        self.limit = limit  # s, or None
        self.missing = missing  # a sentence, or None
        self.commands = commands  # of a number of fixes
        self.read = read  # gives the grid, row by row from the north
        self.is_too_slow = False


def read_raster(path):
    raster = gdal.Open(str(path))
    values = raster.ReadAsArray()
    # What begins in the south is turned.
    return values[::-1] if raster.GetGeoTransform()[5] > 0.0 else values


def gdal_command(algorithm, columns):
    width = made_bed.WIDTH
    return [
        *["gdal_grid", "-q", "-l", "fixes", "-zfield", "depth_m", "-a", algorithm],
        *["-txe", 0, width, "-tye", width, 0, "-outsize", columns, columns],
        *["-ot", "Float32", "fixes.vrt", "gdal.tif"],
    ]


def near_radius(count):
    """Wide enough to meet a line of the boat from anywhere, and never under 10 m."""
    return max(10.0, 2.0 * made_bed.WIDTH / max(2, round(0.5 * np.sqrt(count))))


def gmt_commands(columns):
    region = [f"-R0/{made_bed.WIDTH:.0f}/0/{made_bed.WIDTH:.0f}"]
    region += [f"-I{made_bed.WIDTH / columns:.10g}", "-r"]
    mean = ["sh", "-c", f"gmt blockmean fixes.csv -h1 -i0,1,2 {' '.join(region)} > means.txt"]
    return [mean, ["gmt", "surface", "means.txt", *region, "-T0.25", "-Ggmt.nc"]]


def peers(columns, folder):
    no_gdal = missing_program("gdal_grid", "gdal-bin")

    def by_gdal(name, algorithm, limit=None):
        return Peer(
            name,
            no_gdal,
            lambda count: [gdal_command(algorithm(count), columns)],
            lambda: read_raster(folder / "gdal.tif"),
            limit,
        )

    return [
        by_gdal("gdal_grid linear", lambda _: "linear:radius=-1"),
        by_gdal(
            "gdal_grid invdistnn",
            lambda count: f"invdistnn:power=2:max_points=32:radius={near_radius(count):.1f}",
        ),
        by_gdal("gdal_grid invdist", lambda _: "invdist:power=2", LIMIT),
        Peer(
            "GMT blockmean + surface",
            missing_program("gmt", "gmt"),
            lambda _: gmt_commands(columns),
            lambda: read_raster(folder / "gmt.nc"),
        ),
        Peer(
            "scipy linear",
            missing_scipy(),
            lambda _: [
                [sys.executable, HERE / "scipy_fixes.py", "fixes.csv", "scipy.npy"]
                + [columns, made_bed.WIDTH / columns]
            ],
            lambda: np.load(folder / "scipy.npy"),
        ),
    ]


class Measured:
    """What the runs of one program over one table came to."""

    def __init__(self):
        self.seconds = []
        self.cpu = []
        self.megabytes = None
        self.rmse = None
        self.fit = []  # the program's own: of its seconds those of the fit

    def take(self, done):
        self.seconds.append(done.seconds)
        if done.cpu is not None:
            self.cpu.append(done.cpu)
        if done.megabytes is not None:
            self.megabytes = max(self.megabytes or 0.0, done.megabytes)


def rmse(grid, truth):
    return float(np.sqrt(np.mean((grid.astype(float) - truth) ** 2)))


def write_fixes(folder, count):
    east, north, depth = made_bed.fixes(count)
    with open(folder / "fixes.csv", "w", encoding="utf-8") as file:
        file.write("east_m,north_m,depth_m,sigma_m\n")
        rows = np.column_stack([east, north, depth, np.full(count, made_bed.DEPTH_ERROR)])
        np.savetxt(file, rows, fmt=["%.3f", "%.3f", "%.3f", "%.2f"], delimiter=",")
    (folder / "fixes.vrt").write_text(VRT, encoding="utf-8")


class Ours:
    """The program's bench, and what it says of its own error."""

    def __init__(self, setting, columns, folder):
        self.command = [setting.programs / "bedlore_bench_fixes", "fixes.csv", "bedlore"]
        self.command += [columns, made_bed.WIDTH / columns]
        self.folder = folder

    def read(self, name, kind):
        return np.fromfile(self.folder / f"bedlore.{name}", dtype=kind)

    def error_of(self, truth):
        return -self.read("level", np.float32).astype(float) - truth.ravel()

    def held(self, truth):
        """Share of the truth within 1.96 of the error stated, where the bed is called known; and
        the share that is."""
        known = self.read("known", np.uint8) == 1
        inside = np.abs(self.error_of(truth)) <= 1.96 * self.read("error", np.float32)
        return float(np.mean(inside[known])) if known.any() else None, float(np.mean(known))


def measure_peer(peer, count, folder, truth, found):
    """One run more; no trace of a peer that takes too long or fails."""
    try:
        done = run_all(peer.commands(count), folder, peer.limit)
    except Failed as failure:
        say(f"fixes: {count}, {peer.name}: {failure}")
        peer.missing = "failed"
        found.pop(peer.name, None)
        return
    if done is None:
        peer.is_too_slow = True
        found.pop(peer.name, None)
        return
    measured = found.setdefault(peer.name, Measured())
    measured.take(done)
    measured.rmse = rmse(peer.read(), truth)


def measure_size(ours, others, count, setting, folder, truth):
    """Every program in turn, run after run, so that a busy minute meets them all."""
    write_fixes(folder, count)
    found = {"Bedlore": Measured()}
    for i in range(setting.runs):
        say(f"fixes: {count}, run {i + 1} of {setting.runs}")
        done = run(ours.command, folder)
        found["Bedlore"].take(done)
        found["Bedlore"].fit.append(json.loads(done.output)["fit"])
        for peer in others:
            if peer.missing or peer.is_too_slow:
                continue
            measure_peer(peer, count, folder, truth, found)
    found["Bedlore"].rmse = float(np.sqrt(np.mean(ours.error_of(truth) ** 2)))
    return found


def beside(ours, theirs, word):
    """What share of the least of the others' numbers ours is."""
    known = {name: value for name, value in theirs.items() if value is not None}
    if not known or ours is None:
        return ""
    best = min(known, key=known.get)
    return f"{ours / known[best]:.2f} of the {word} ({best})"


def time_words(one):
    cpu = f" ({median(one.cpu):.2f})" if one.cpu else ""
    return f"{median(one.seconds):.2f}{cpu}"


def memory_words(one):
    return "?" if one.megabytes is None else f"{one.megabytes:.0f}"


class SizeRows:
    """The rows of one number of fixes."""

    def __init__(self, count, columns, found, others):
        self.name = f"{count:,} fixes to {columns} × {columns}".replace(",", " ")
        self.is_largest = count == SIZES[-1]
        self.mine = found["Bedlore"]
        self.rest = {peer.name: found.get(peer.name) for peer in others if not peer.missing}
        self.missing = {peer.name: peer.missing for peer in others if peer.missing}

    def texts(self, words):
        return {
            name: words(one) if one else f"over {LIMIT:.0f} s: stopped"
            for name, one in self.rest.items()
        } | self.missing

    def numbers(self, of):
        return {name: of(one) for name, one in self.rest.items() if one}

    def add_time(self, report):
        def seconds(one):
            return median(one.seconds)

        report.add(
            f"{self.name}: s (on all cores together)",
            f"{time_words(self.mine)} with error; of it the fit {median(self.mine.fit):.2f}",
            self.texts(time_words),
            beside(seconds(self.mine), self.numbers(seconds), "fastest"),
            "faster than gdal_grid linear, invdistnn and GMT" if self.is_largest else "",
        )

    def add_memory(self, report):
        peaks = [peak for peak in self.numbers(lambda one: one.megabytes).values() if peak]
        ours = self.mine.megabytes
        report.add(
            f"{self.name}: peak memory, MB",
            memory_words(self.mine),
            self.texts(memory_words),
            f"{ours / max(peaks):.2f} of the largest" if peaks and ours else "",
            "less than the largest" if self.is_largest else "",
        )

    def add_truth(self, report, held):
        share, known = held
        report.add(
            f"{self.name}: RMSE against the made bed, all cells, m",
            f"{self.mine.rmse:.3f}; known {100 * known:.0f} %"
            + ("" if share is None else f", of these {100 * share:.1f} % within 1.96 s"),
            self.texts(lambda one: f"{one.rmse:.3f}"),
            beside(self.mine.rmse, self.numbers(lambda one: one.rmse), "best"),
        )


def add_exponents(report, by_size, others):
    sizes = [size for size in by_size if size >= FITTED_FROM]

    def fitted(name):
        there = [size for size in sizes if name in by_size[size]]
        if len(there) < 2:
            return None
        return exponent(there, [median(by_size[size][name].seconds) for size in there])

    rest = {peer.name: fitted(peer.name) for peer in others}
    fit = exponent(sizes, [median(by_size[size]["Bedlore"].fit) for size in sizes])
    report.add(
        f"exponent of the time over the fixes, from {sizes[0]} to {sizes[-1]}",
        f"{fitted('Bedlore'):.2f} (its fit alone {fit:.2f})",
        {name: f"{value:.2f}" for name, value in rest.items() if value is not None},
        "",
        "≤ 1.15",
    )


def add_rows(report, setting, folder):
    columns = 256 if setting.quick else 1024
    sizes = [size for size in SIZES if not setting.quick or size <= 50_000]
    others = peers(columns, folder)
    ours = Ours(setting, columns, folder)
    truth = made_bed.depth(*made_bed.centres(columns))
    by_size = {}
    for count in sizes:
        by_size[count] = measure_size(ours, others, count, setting, folder, truth)
        rows = SizeRows(count, columns, by_size[count], others)
        rows.add_time(report)
        rows.add_memory(report)
        rows.add_truth(report, ours.held(truth))
    add_exponents(report, by_size, others)
