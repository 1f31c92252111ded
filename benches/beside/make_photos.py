"""Photos to measure speed and memory on: dark discs, closely packed and jittered, with thin pale walls.

    make_photos.py FOLDER
"""

import sys
from pathlib import Path

import cv2
import numpy as np

PORES_PER_MM = 4.5
# Width, height, px per mm: 27 px from pore to pore at 120, and 12 px at 54.
PHOTOS = [
    (1632, 1224, 120), (3264, 2448, 120), (6400, 4800, 120), (11584, 8688, 120), (6400, 4800, 54),
]
SHIFT = 4  # discs are drawn to 1/2⁴ px


def picture(width, height, px_per_mm):
    """Blue, green, red as they go into the file, and how many discs have their middle on it."""
    draw = np.random.default_rng(7)
    spacing = px_per_mm / PORES_PER_MM
    row = spacing * np.sqrt(0.75)
    y, x = np.mgrid[-1:height / row + 1, -1:width / spacing + 1]
    at = np.stack([(x + y % 2 / 2) * spacing, y * row], axis=-1).reshape(-1, 2)
    at += draw.normal(0, 0.03 * spacing, at.shape)
    radii = spacing * draw.normal(0.41, 0.015, len(at))
    light = np.full((height, width), 200, np.uint8)
    for disc in np.rint(np.column_stack([at, radii]) * 2**SHIFT).astype(int).tolist():
        cv2.circle(light, disc[:2], disc[2], 60, cv2.FILLED, cv2.LINE_AA, SHIFT)
    light = cv2.GaussianBlur(light, (0, 0), 0.04 * spacing).astype(np.float32)
    light += draw.standard_normal(light.shape, np.float32) * 4
    tissue = [cv2.convertScaleAbs(np.maximum(light, 0), alpha=share) for share in (0.67, 0.87, 1.0)]
    within = ((at >= 0) & (at < (width, height))).all(axis=1)
    return cv2.merge(tissue), int(within.sum())


folder = Path(sys.argv[1])
folder.mkdir(parents=True, exist_ok=True)
for width, height, px_per_mm in PHOTOS:
    image, count = picture(width, height, px_per_mm)
    name = f"{width}x{height}-at-{px_per_mm}.jpg"
    cv2.imwrite(str(folder / name), image, [cv2.IMWRITE_JPEG_QUALITY, 92])
    print(f"{name}: {count / (width * height) * px_per_mm**2:.2f} pores per mm²")
