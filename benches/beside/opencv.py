"""Pores counted by OpenCV's parts in the usual order; the table goes to the folder for temporary files.

Prints the seconds from file to table, without starting Python, and the pores per mm².

    opencv.py PHOTO PX_PER_MM PORES_PER_MM
"""

import csv
import sys
import tempfile
import time
from pathlib import Path

import cv2
import numpy as np

photo, px_per_mm, per_mm = sys.argv[1], float(sys.argv[2]), float(sys.argv[3])
spacing = px_per_mm / per_mm
began = time.perf_counter()
grey = cv2.cvtColor(cv2.imread(photo), cv2.COLOR_BGR2GRAY)
block = int(2 * spacing) | 1
grey = cv2.GaussianBlur(grey, (0, 0), spacing / 20)
dark = cv2.adaptiveThreshold(grey, 255, cv2.ADAPTIVE_THRESH_MEAN_C, cv2.THRESH_BINARY_INV, block, 2)
inside = cv2.GaussianBlur(cv2.distanceTransform(dark, cv2.DIST_L2, 5), (0, 0), spacing / 20)
reach = cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (int(spacing / 2) | 1,) * 2)
peaks = (inside >= cv2.dilate(inside, reach)) & (inside > spacing / 10)
count, seeds = cv2.connectedComponents(peaks.astype(np.uint8))
seeds[dark == 0] = count  # the walls are one basin
seeds = cv2.watershed(cv2.merge([cv2.bitwise_not(dark)] * 3), seeds)
pores = ((seeds > 0) & (seeds < count)).astype(np.uint8)
# A line one pixel wide does not part what touches at corners.
pores[cv2.dilate((seeds < 0).astype(np.uint8), np.ones((2, 2), np.uint8)) > 0] = 0
outlines, _ = cv2.findContours(pores, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
table = Path(tempfile.gettempdir()) / f"{Path(photo).stem}-opencv.csv"
with table.open("w", newline="") as file:
    rows = csv.writer(file)
    rows.writerow(["x_px", "y_px", "area_mm2", "perimeter_mm", "elongation"])
    for outline in outlines:
        m = cv2.moments(outline)
        area = max(m["m00"], 1.0)
        half, apart = (m["mu20"] + m["mu02"]) / 2, np.hypot((m["mu20"] - m["mu02"]) / 2, m["mu11"])
        elongation = np.sqrt((half + apart) / max(half - apart, 1e-9))
        rows.writerow([m["m10"] / area, m["m01"] / area, area / px_per_mm**2,
                       cv2.arcLength(outline, True) / px_per_mm, elongation])
print(time.perf_counter() - began, len(outlines) / (grey.size / px_per_mm**2))
