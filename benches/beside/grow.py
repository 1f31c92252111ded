"""How measuring grows with the photo, beside decoding it: a table to print and a plot.

    grow.py PORELINE PLOT PHOTO=PX_PER_MM…
"""

import statistics
import sys
from pathlib import Path

import matplotlib

matplotlib.use("agg")
import matplotlib.pyplot as plt
from PIL import Image

from run import OPENCV, ran

ROUNDS = 3
Image.MAX_IMAGE_PIXELS = None


def main():
    poreline, plot, *photos = sys.argv[1:]
    photos = [photo.rsplit("=", 1) for photo in photos]
    runs = {photo: ([], []) for photo, _ in photos}
    # Round after round, so that what else the machine does falls on all of them.
    for _ in range(ROUNDS):
        for photo, scale in photos:
            decoded, measured = runs[photo]
            decoded.append(ran([sys.executable, "-c", OPENCV, photo]))
            measured.append(ran([poreline, "measure", photo, "--px-per-mm", scale, "--json"]))
    points = {}
    print("| photo | decoded, s | measured, s (least to most) | s per megapixel | × decoding | peak memory, MB |")
    print("|---|---|---|---|---|---|")
    for photo, scale in photos:
        with Image.open(photo) as opened:
            megapixels = opened.width * opened.height / 1e6
        decoded, measured = runs[photo]
        decoding, seconds = (statistics.median(run[0] for run in of) for of in (decoded, measured))
        least, most = (of(run[0] for run in measured) for of in (min, max))
        peak = statistics.median(run[2] for run in measured) / 1e6
        points.setdefault(scale, []).append((megapixels, seconds, decoding))
        print(f"| {megapixels:.0f} megapixels at {scale} px per mm | {decoding:.2f} | {seconds:.1f} ({least:.1f}–{most:.1f}) "
              f"| {seconds / megapixels:.2f} | {seconds / decoding:.0f} | {peak:.0f} |")
    draw(points, plot)
    print(f"{ROUNDS} rounds; the plot is {Path(plot).name}")


def draw(points, plot):
    figure, axes = plt.subplots(figsize=(6.4, 4.2), layout="constrained")
    for (scale, of), mark in zip(points.items(), "os^"):
        megapixels, seconds, decoding = zip(*sorted(of))
        axes.plot(megapixels, seconds, mark + "-", label=f"measured, {scale} px per mm")
        axes.plot(megapixels, decoding, mark + ":", color="0.45", label=f"decoded, {scale} px per mm")
    axes.set(xscale="log", yscale="log", xlabel="megapixels", ylabel="seconds")
    axes.grid(which="both", color="0.9")
    axes.legend(frameon=False)
    figure.savefig(plot, dpi=120)


main()
