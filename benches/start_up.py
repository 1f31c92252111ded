"""How long the window takes from its start until it is painted, and what it takes of the processor while nothing
happens. Needs Xvfb and ImageMagick; a software renderer paints.

    start_up.py PORELINE
"""

import os
import statistics
import subprocess
import sys
import tempfile
import time

STARTS = 5
DISPLAY = ":87"
IDLE_SECONDS = 10
SETTLING_SECONDS = 3


def is_painted():
    """Whether the screen shows more than the one colour of an empty one or of a bare window."""
    look = ["import", "-window", "root", "-resize", "64x40!", "-depth", "8", "ppm:-"]
    picture = subprocess.run(look, capture_output=True, check=True).stdout
    return len(set(picture[-64 * 40 * 3:])) > 4


def seconds_of_processor(child):
    with open(f"/proc/{child.pid}/stat", encoding="ascii") as stat:
        fields = stat.read().rsplit(")", 1)[1].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def started(poreline, idle_seconds):
    """Seconds until it is painted, and seconds of the processor taken while idle."""
    with tempfile.TemporaryDirectory() as home:
        began = time.perf_counter()
        child = subprocess.Popen([poreline], env=os.environ | {"HOME": home}, stderr=subprocess.DEVNULL)
        try:
            while not is_painted():
                if child.poll() is not None:
                    sys.exit(f"{poreline} ended before it was painted")
            painted = time.perf_counter() - began
            time.sleep(SETTLING_SECONDS if idle_seconds else 0)
            before = seconds_of_processor(child)
            time.sleep(idle_seconds)
            return painted, seconds_of_processor(child) - before
        finally:
            child.kill()
            child.wait()


def main():
    poreline = os.path.abspath(sys.argv[1])
    screen = subprocess.Popen(["Xvfb", DISPLAY, "-screen", "0", "1280x800x24"], stderr=subprocess.DEVNULL)
    os.environ |= {"DISPLAY": DISPLAY, "LIBGL_ALWAYS_SOFTWARE": "1"}
    os.environ.pop("WAYLAND_DISPLAY", None)
    try:
        time.sleep(2)
        seconds = sorted(started(poreline, 0)[0] for _ in range(STARTS))
        print(f"painted after {1000 * statistics.median(seconds):.0f} ms "
              f"({1000 * seconds[0]:.0f} to {1000 * seconds[-1]:.0f}, {STARTS} starts)")
        print(f"idle: {started(poreline, IDLE_SECONDS)[1]:.2f} s of the processor in {IDLE_SECONDS} s")
    finally:
        screen.terminate()
        screen.wait()


main()
