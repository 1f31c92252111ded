"""How long Poreline takes beside decoding the photo and beside the usual scripts, and how much memory.

All in one run: on another machine only the ratios mean anything.

    run.py PHOTO PX_PER_MM PORELINE [--per-mm PORES_PER_MM] [--without NAME]…
"""

import argparse
import json
import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

HERE = Path(__file__).parent
TIMES = 5
SLOW_SECONDS = 20  # what takes longer in the warm-up is not run again, and that run counts

DECODING = "import sys, time; {}; began = time.perf_counter(); {}; print(time.perf_counter() - began)"
OPENCV = DECODING.format("import cv2", "cv2.imread(sys.argv[1])")
PILLOW = DECODING.format("from PIL import Image", "Image.open(sys.argv[1]).load()")
# Prints how many pixels the photo has, and saves a corner of it.
CORNER = """import sys; from PIL import Image; photo = Image.open(sys.argv[1])
print(photo.width * photo.height); photo.crop((0, 0, 320, 240)).save(sys.argv[2], quality=92)"""


def ran(command):
    """Seconds of work, seconds of all cores together, peak memory in bytes, pores per mm².

    Starting Python is not counted in the seconds of work, starting Poreline is.
    """
    began = time.perf_counter()
    child = subprocess.Popen(command, stdout=subprocess.PIPE)
    printed = child.stdout.read()
    _, status, usage = os.wait4(child.pid, 0)
    seconds = time.perf_counter() - began
    child.returncode = os.waitstatus_to_exitcode(status)
    if child.returncode:
        sys.exit(f"{command} ended with {child.returncode}")
    if printed.startswith(b"{"):
        found = (json.loads(printed)["pores"] or {}).get("per_mm2")
    else:
        seconds, found = [*map(float, printed.split()), None][:2]
    return seconds, usage.ru_utime + usage.ru_stime, usage.ru_maxrss * 1024, found


def main():
    words = argparse.ArgumentParser()
    words.add_argument("photo")
    words.add_argument("px_per_mm")
    words.add_argument("poreline")
    words.add_argument("--per-mm", default="4.5")
    words.add_argument("--without", action="append", default=[])
    told = words.parse_args()
    here, scale = [sys.executable], [told.px_per_mm, told.per_mm]
    # What stands before the photo in the command, and what behind it.
    programs = {
        "decode, OpenCV": ([*here, "-c", OPENCV], []),
        "decode, Pillow": ([*here, "-c", PILLOW], []),
        "OpenCV": ([*here, HERE / "opencv.py"], scale),
        "scikit-image": ([*here, HERE / "scikit_image.py"], scale),
        "Poreline": ([told.poreline, "measure"], ["--px-per-mm", told.px_per_mm, "--json"]),
    }
    programs = {name: parts for name, parts in programs.items() if name not in told.without}
    print(f"{Path(told.photo).name}, load before {os.getloadavg()[0]:.1f} on {os.cpu_count()} cores")
    with tempfile.TemporaryDirectory() as folder:
        corner = str(Path(folder) / "corner.jpg")
        pixels = int(subprocess.check_output([*here, "-c", CORNER, told.photo, corner]))
        base = {name: ran([*before, corner, *behind])[2] for name, (before, behind) in programs.items()}
    runs = {name: [] for name in programs}
    commands = {name: [*before, told.photo, *behind] for name, (before, behind) in programs.items()}
    for name, command in commands.items():
        warm_up = ran(command)
        if warm_up[0] > SLOW_SECONDS:
            runs[name].append(warm_up)
    slow = {name for name, of in runs.items() if of}
    # Round after round, so that what else the machine does falls on all of them.
    for _ in range(TIMES):
        for name, command in commands.items():
            if name not in slow:
                runs[name].append(ran(command))
    middle = {name: statistics.median(run[0] for run in of) for name, of in runs.items()}
    print(f"{'':16}{'runs':>5}{'seconds':>9}{'range':>8}{'core s':>8}{'× OpenCV':>10}{'× Pillow':>10}"
          f"{'bytes/px':>10}{'per mm²':>9}", flush=True)
    for name, of in runs.items():
        seconds = [run[0] for run in of]
        peak = statistics.median(run[2] for run in of) - base[name]
        found = f"{of[0][3]:9.2f}" if of[0][3] else ""
        print(f"{name:16}{len(of):5}{middle[name]:9.3f}{max(seconds) - min(seconds):8.3f}"
              f"{statistics.median(run[1] for run in of):8.2f}"
              f"{middle[name] / middle['decode, OpenCV']:10.1f}{middle[name] / middle['decode, Pillow']:10.1f}"
              f"{peak / pixels:10.1f}{found}")
    print(f"load after {os.getloadavg()[0]:.1f}")


if __name__ == "__main__":
    main()
