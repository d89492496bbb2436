#!/usr/bin/env python3
"""Measure 1:1 prints with outside readers.

    check_print.py [--no-bar FILE.svg]... [--pdf FILE.pdf [--pages N] [--paper WxH]] FILE.svg...
    check_print.py --view PRINTED.pdf FILE.pdf

Each FILE.svg is turned into a PDF twice, by rsvg-convert and by Chromium's
print, and the page must be one, as large as the SVG says. Its bars of 100 mm or 4 in are
found in the SVG's own XML (a straight path of exactly that length, a tick of
3 mm starting at either end), at least one for each text "measure me", and
measured, tick to tick, in a 1200 dpi raster of that place: 0.05 mm is allowed.
--no-bar names an SVG that is no 1:1 print and need not have a bar: only its
page is checked.

FILE.pdf is checked for its number of pages and their size (mm, either way up),
and every 100 mm bar in its content streams is measured there, 0.005 mm allowed,
and in the raster, 0.05 mm.

--view measures what a browser printed of the page's print view, 0.05 mm allowed,
where FILE.pdf of the same job has its bars.

Prints that carry a printer's correction (--print-scale) are not 1:1 files; don't
give them. A missing program is a failure.
"""

import argparse
import concurrent.futures
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ET

DPI = 1200
MM = 25.4 / DPI  # a pixel
RASTER_TOL = 0.05  # mm
STREAM_TOL = 0.005  # mm
PAGE_TOL = 0.4  # mm: the SVG is whole CSS pixels, Chromium's page whole device pixels
TICK = 3.0  # mm
MEASURE = "measure me"  # how the words beside every bar begin
BARS = (100, 101.6)  # mm: 100 mm, or 4 in on an inch job's prints
PT = 25.4 / 72

NUM = r"(-?\d+(?:\.\d+)?)"


class Bad(Exception):
    """One sentence about what is wrong."""


def run(*args, timeout=60):
    done = subprocess.run([str(a) for a in args], capture_output=True, timeout=timeout)
    if done.returncode != 0:
        raise Bad(f"{args[0]} failed: {done.stderr.decode(errors='replace').strip()[-300:]}")
    return done.stdout


def nominal(a, b):
    """Return the length in mm that a bar from a to b should have, None for no bar."""
    long = max(abs(b[0] - a[0]), abs(b[1] - a[1]))
    return next((want for want in BARS if abs(long - want) <= 0.02), None)


def find_bars(lines):
    """Return the bars among straight lines ((x0, y0), (x1, y1)), any unit mm.

    A bar is (a, b, t): its ends, and the unit vector in which its ticks stand.
    """
    bars = []
    for a, b in lines:
        dx, dy = b[0] - a[0], b[1] - a[1]
        if min(abs(dx), abs(dy)) > 1e-3 or nominal(a, b) is None:
            continue
        ticks = []
        for end in (a, b):
            for p, q in lines:
                ex, ey = q[0] - p[0], q[1] - p[1]
                at_end = abs(p[0] - end[0]) < 2e-3 and abs(p[1] - end[1]) < 2e-3
                across = abs(ex * dx + ey * dy) < 0.1
                if at_end and across and abs(abs(ex) + abs(ey) - TICK) < 1e-2:
                    ticks.append((round(ex / TICK), round(ey / TICK)))
                    break
        if len(ticks) == 2 and ticks[0] == ticks[1]:
            bars.append((a, b, ticks[0]))
    return bars


def measure(pdf, page, bar, scratch):
    """Return the bar's length in mm in a raster of the PDF's page.

    Places are in mm from the page's upper left corner, y down.
    """
    (ax, ay), (bx, by), (tx, ty) = bar
    # A strip between the base line and the ticks' tips, clear of both, which
    # holds nothing but ticks; and half a millimetre beyond both ends.
    x0, x1 = min(ax, bx) - 0.5, max(ax, bx) + 0.5
    y0, y1 = min(ay, by) - 0.5, max(ay, by) + 0.5
    flat = abs(bx - ax) > abs(by - ay)
    if flat:
        y0, y1 = sorted((ay + 0.5 * ty, ay + 1.4 * ty))
    else:
        x0, x1 = sorted((ax + 0.5 * tx, ax + 1.4 * tx))
    px, py = round(x0 / MM), round(y0 / MM)
    w, h = round((x1 - x0) / MM), round((y1 - y0) / MM)
    out = scratch / f"strip-{page}-{px}-{py}"
    run("pdftoppm", "-r", DPI, "-gray", "-f", page, "-l", page, "-x", px, "-y", py,
        "-W", w, "-H", h, "-singlefile", pdf, out)
    raw = out.with_suffix(".pgm").read_bytes()
    head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", raw)
    if not head:
        raise Bad("pdftoppm gave no grey picture")
    gw, gh = int(head[1]), int(head[2])
    if (gw, gh) != (w, h):
        raise Bad(f"the bar runs off the page: {gw} x {gh} pixels of {w} x {h}")
    grey = raw[head.end():]

    def ink(i):
        """Darkness of the strip's i-th line across the bar."""
        cells = grey[i::gw] if flat else grey[i * gw:(i + 1) * gw]
        return 255 * len(cells) - sum(cells)

    n = gw if flat else gh

    def centre(lo, hi):
        weight = [(i, ink(i)) for i in range(lo, hi)]
        total = sum(v for _, v in weight)
        if total < 255 * (gh if flat else gw) * 3:
            raise Bad("no tick where the bar ends")
        return sum((i + 0.5) * v for i, v in weight) / total

    reach = round(1.0 / MM)
    return (centre(n - reach, n) - centre(0, reach)) * MM


def page_sizes(pdf):
    text = run("pdfinfo", "-f", 1, "-l", 9999, pdf).decode()
    sizes = re.findall(rf"^Page\s+\d+\s+size:\s+{NUM} x {NUM} pts", text, re.M)
    return [(float(w) * PT, float(h) * PT) for w, h in sizes]


def check_page(pdf, want, by):
    sizes = page_sizes(pdf)
    if len(sizes) != 1:
        raise Bad(f"{by} made {len(sizes)} pages of it")
    if any(abs(g - w) > PAGE_TOL for g, w in zip(sizes[0], want)):
        raise Bad(f"{by} made a page of {sizes[0][0]:.3f} x {sizes[0][1]:.3f} mm, want {want[0]:g} x {want[1]:g}")


def check_length(pdf, page, bar, scratch, by):
    got = measure(pdf, page, bar, scratch)
    want = nominal(*bar[:2])
    if abs(got - want) > RASTER_TOL:
        raise Bad(f"a {want:g} mm bar measures {got:.3f} mm by {by}")
    return got


def read_svg(path):
    root = ET.parse(path).getroot()
    size = []
    for name in ("width", "height"):
        m = re.fullmatch(NUM + "mm", root.get(name, ""))
        if not m:
            raise Bad(f"{name} is {root.get(name)!r}, not in mm")
        size.append(float(m[1]))
    view = [float(v) for v in root.get("viewBox", "").split()]
    if view != [0, 0, *size]:
        raise Bad(f"viewBox {view} is not 0 0 and the size {size}")
    style = "".join(e.text or "" for e in root.iter("{http://www.w3.org/2000/svg}style"))
    page = re.search(rf"@page{{size:{NUM}mm {NUM}mm;margin:0}}", style)
    if not page or any(not -1e-3 < float(p) - s < PAGE_TOL for p, s in zip(page.groups(), size)):
        raise Bad(f"no @page rule that fits {size[0]:g} x {size[1]:g} mm: {style!r}")
    lines = []
    for p in root.iter("{http://www.w3.org/2000/svg}path"):
        m = re.fullmatch(f"M{NUM},{NUM}L{NUM},{NUM}", p.get("d", ""))
        if m:
            v = [float(g) for g in m.groups()]
            lines.append(((v[0], v[1]), (v[2], v[3])))
    words = ["".join(e.itertext()) for e in root.iter("{http://www.w3.org/2000/svg}text")]
    return tuple(size), find_bars(lines), sum(w.startswith(MEASURE) for w in words)


def png_size(png):
    if png[:8] != b"\x89PNG\r\n\x1a\n":
        raise Bad("rsvg-convert gave no PNG")
    return int.from_bytes(png[16:20], "big"), int.from_bytes(png[20:24], "big")


def check_svg(path, need_bar, scratch):
    size, bars, asked = read_svg(path)
    if len(bars) < max(asked, int(need_bar)):
        raise Bad(f"{len(bars)} bars found, {asked} say 'measure me'")

    png = run("rsvg-convert", "-d", 50, "-p", 50, path)
    if any(abs(g - w / 25.4 * 50) > 1 for g, w in zip(png_size(png), size)):
        raise Bad(f"rsvg-convert made {png_size(png)} pixels of {size} mm at 50 dpi")

    rsvg = scratch / "rsvg.pdf"
    run("rsvg-convert", "-f", "pdf", "-o", rsvg, path)
    check_page(rsvg, size, "rsvg-convert")

    printed = scratch / "chromium.pdf"
    run("chromium", "--headless", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage",
        "--disable-background-networking", "--disable-component-update", "--disable-sync",
        "--disable-extensions", "--disable-default-apps", "--no-first-run",
        "--no-default-browser-check", f"--user-data-dir={scratch / 'profile'}",
        "--no-pdf-header-footer", f"--print-to-pdf={printed}", path.resolve().as_uri())
    check_page(printed, size, "Chromium")

    said = []
    for bar in bars:
        a = check_length(rsvg, 1, bar, scratch, "rsvg-convert")
        b = check_length(printed, 1, bar, scratch, "Chromium")
        said.append(f"{a:.3f}/{b:.3f}")
    return f"{size[0]:g} x {size[1]:g} mm, bars by rsvg-convert/Chromium: {', '.join(said) or 'none'}"


def bars_of_pages(raw, sizes):
    """Return for each page of our own PDF its bars, and how many ask to be measured."""
    streams = re.findall(rb"/Length \d+>>\nstream\n(.*?)\nendstream", raw, re.S)
    streams = [s for s in streams if not s.startswith(b"/CIDInit")]  # a font's map of letters
    if len(streams) != len(sizes):
        raise Bad(f"{len(streams)} readable content streams for {len(sizes)} pages")
    out = []
    for (_, height), stream in zip(sizes, streams):
        lines = []
        for m in re.finditer(rf"^{NUM} {NUM} m\n{NUM} {NUM} l\nS$", stream.decode("latin-1"), re.M):
            v = [float(g) * PT for g in m.groups()]
            lines.append(((v[0], height - v[1]), (v[2], height - v[3])))
        out.append((find_bars(lines), stream.count(b"(" + MEASURE.encode())))
    return out


def check_view(path, own, scratch):
    """Measure what a browser printed of the print view where our own PDF of the job has its bars."""
    sizes, want = page_sizes(path), page_sizes(own)
    if len(sizes) != len(want) or any(abs(g - w) > PAGE_TOL for a, b in zip(sizes, want) for g, w in zip(a, b)):
        raise Bad(f"pages of {sizes}, want {want}")
    said = []
    for i, (bars, _) in enumerate(bars_of_pages(own.read_bytes(), want), 1):
        said += [f"p{i} {check_length(path, i, bar, scratch, f'the browser, page {i}'):.3f}" for bar in bars]
    if not said:
        raise Bad("no bar found on any page")
    return f"{len(sizes)} pages, bars: {', '.join(said)}"


def check_pdf(path, pages, paper, scratch):
    sizes = page_sizes(path)
    if pages is not None and len(sizes) != pages:
        raise Bad(f"{len(sizes)} pages, want {pages}")
    if paper:
        for i, s in enumerate(sizes, 1):
            if any(abs(g - w) > 0.01 for g, w in zip(sorted(s), sorted(paper))):
                raise Bad(f"page {i} is {s[0]:.3f} x {s[1]:.3f} mm, want {paper[0]:g} x {paper[1]:g} either way up")

    raw = path.read_bytes()
    if b"/PrintScaling /None" not in raw:
        raise Bad("it does not ask for printing without scaling")
    said = []
    for i, (bars, asked) in enumerate(bars_of_pages(raw, sizes), 1):
        if len(bars) < asked:
            raise Bad(f"{len(bars)} bars found on page {i}, {asked} say 'measure me'")
        for bar in bars:
            long = abs(bar[1][0] - bar[0][0]) + abs(bar[1][1] - bar[0][1])
            if abs(long - nominal(*bar[:2])) > STREAM_TOL:
                raise Bad(f"a bar on page {i} is {long:.4f} mm in the content stream, want {nominal(*bar[:2]):g}")
            said.append(f"p{i} {check_length(path, i, bar, scratch, f'pdftoppm, page {i}'):.3f}")
    if not said:
        raise Bad("no bar found on any page")
    return f"{len(sizes)} pages, bars: {', '.join(said)}"


def main():
    args = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    args.add_argument("svg", nargs="*", type=pathlib.Path)
    args.add_argument("--no-bar", action="append", default=[], type=pathlib.Path)
    args.add_argument("--pdf", type=pathlib.Path)
    args.add_argument("--pages", type=int)
    args.add_argument("--paper", help="width x height in mm, such as 210x297")
    args.add_argument("--view", nargs=2, type=pathlib.Path, metavar=("PRINTED.pdf", "OWN.pdf"))
    opt = args.parse_args()
    if not (opt.svg or opt.no_bar or opt.pdf or opt.view):
        args.error("no file given")
    paper = None
    if opt.paper:
        paper = tuple(float(v) for v in opt.paper.split("x"))
        if len(paper) != 2:
            args.error("--paper is width x height in mm, such as 210x297")

    missing = [p for p in ("rsvg-convert", "chromium", "pdftoppm", "pdfinfo") if not shutil.which(p)]
    if missing:
        sys.exit(f"check_print: not installed: {', '.join(missing)}")

    jobs = [(p, lambda d, p=p: check_svg(p, True, d)) for p in opt.svg]
    jobs += [(p, lambda d, p=p: check_svg(p, False, d)) for p in opt.no_bar]
    if opt.pdf:
        jobs.append((opt.pdf, lambda d: check_pdf(opt.pdf, opt.pages, paper, d)))

    if opt.view:
        jobs.append((opt.view[0], lambda d: check_view(*opt.view, d)))

    def do(job):
        path, check = job
        # Chromium may still be writing to its profile when it is gone.
        with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as d:
            try:
                return path, True, check(pathlib.Path(d))
            except (Bad, OSError, ET.ParseError, ValueError, subprocess.TimeoutExpired) as e:
                return path, False, str(e)

    failed = 0
    with concurrent.futures.ThreadPoolExecutor(max_workers=2) as pool:
        for path, ok, text in pool.map(do, jobs):
            print(f"{'ok  ' if ok else 'FAIL'} {path}: {text}")
            failed += not ok
    if failed:
        sys.exit(f"check_print: {failed} of {len(jobs)} files failed")


if __name__ == "__main__":
    main()
