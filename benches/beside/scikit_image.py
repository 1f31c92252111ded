"""Pores counted by scikit-image's parts in the usual order; the table goes to the folder for temporary files.

Prints the seconds from file to table, without starting Python, and the pores per mm².

    scikit_image.py PHOTO PX_PER_MM PORES_PER_MM
"""

import sys
import tempfile
import time
from pathlib import Path

import numpy as np
from scipy import ndimage
from skimage import color, feature, filters, io, measure, segmentation

photo, px_per_mm, per_mm = sys.argv[1], float(sys.argv[2]), float(sys.argv[3])
spacing = px_per_mm / per_mm
began = time.perf_counter()
grey = filters.gaussian(color.rgb2gray(io.imread(photo)), spacing / 20)
dark = grey < filters.threshold_local(grey, int(2 * spacing) | 1, method="mean", offset=0.01)
inside = filters.gaussian(ndimage.distance_transform_edt(dark), spacing / 20)
peaks = feature.peak_local_max(
    inside, min_distance=max(1, int(spacing / 4)), threshold_abs=spacing / 10, exclude_border=False)
seeds = np.zeros(grey.shape, np.int32)
seeds[tuple(peaks.T)] = np.arange(1, len(peaks) + 1)
pores = segmentation.watershed(-inside, seeds, mask=dark)
columns = measure.regionprops_table(
    pores, properties=["centroid", "area", "perimeter", "axis_major_length", "axis_minor_length"])
longer, shorter = columns["axis_major_length"], columns["axis_minor_length"]
elongation = longer / np.maximum(shorter, 1e-9)
table = Path(tempfile.gettempdir()) / f"{Path(photo).stem}-scikit-image.csv"
np.savetxt(table, np.column_stack([
    columns["centroid-1"] + 0.5, columns["centroid-0"] + 0.5, columns["area"] / px_per_mm**2,
    columns["perimeter"] / px_per_mm, elongation,
]), delimiter=",", header="x_px,y_px,area_mm2,perimeter_mm,elongation", comments="")
print(time.perf_counter() - began, len(elongation) / (grey.size / px_per_mm**2))
