"""Makes what docs/tutorial.md quotes anew: what the program says, and its pictures.

Usage, from any folder: python3 docs/tutorial/make.py PROGRAM. With --check only the answers that
take no computing are compared with the page, and nothing is written: exit code 1 when they differ.
Pictures want a display or Xvfb, chromium for the page, ImageMagick to make them small.
"""

import difflib
import os
import re
import shutil
import subprocess
import sys
import tempfile

here = os.path.dirname(os.path.abspath(__file__))
page_file = os.path.join(here, "..", "tutorial.md")
pictures = os.path.join(here, "..", "pictures")
is_check = "--check" in sys.argv
program = os.path.abspath([word for word in sys.argv[1:] if word != "--check"][0])

# Picture of the docs: run's folder, its file.
SHOWN = {
    "tutorial_edge_first.png": ("rib-result", "pictures/edge-stretch.png"),
    "tutorial_edge.png": ("rib2-result", "pictures/edge-stretch.png"),
    "tutorial_thinning.png": ("rib2-result", "pictures/thinning.png"),
    "tutorial_section.png": ("rib2-result", "pictures/section.png"),
}
LARGEST = 150_000  # bytes


def said_by(command, folder):
    """What a user sees on the terminal for a line like "flangewright check rib.toml"."""
    words = command.replace('"', "").split()
    done = subprocess.run([program] + words[1:], cwd=folder, capture_output=True, text=True)
    text = done.stdout if done.returncode == 0 else done.stdout + done.stderr
    return text.replace(os.path.realpath(folder) + "/", "")


def fresh(page, folder):
    def block(match):
        command = match[1]
        if is_check and " check " not in command and " materials" not in command:
            return match[0]
        return f"```text\n$ {command}\n{said_by(command, folder)}```"

    def case(match):
        with open(os.path.join(here, match[1])) as text:
            return f"```toml\n{text.read()}```"

    page = re.sub(r"```toml\n# (\w+[.]toml):.*?```", case, page, flags=re.DOTALL)
    return re.sub(r"```text\n\$ (flangewright [^\n]*)\n.*?```", block, page, flags=re.DOTALL)


def small(source, target, size):
    subprocess.run(["convert", source, "-resize", size, "-colors", "96", "-strip",
                    "-define", "png:compression-level=9", target], check=True)
    if os.path.getsize(target) > LARGEST:
        sys.exit(f"{target} has {os.path.getsize(target)} bytes, at most {LARGEST} are wanted")


def draw(folder):
    for name, (run, file) in SHOWN.items():
        small(os.path.join(folder, run, file), os.path.join(pictures, name), "1000x")
    shot = os.path.join(folder, "page.png")
    subprocess.run(["chromium", "--headless", "--no-sandbox", "--hide-scrollbars",
                    "--window-size=900,1200", f"--screenshot={shot}",
                    os.path.join(folder, "rib2-result", "sheet.html")],
                   check=True, capture_output=True)
    small(shot, os.path.join(pictures, "tutorial_page.png"), "900x")


with open(page_file) as text:
    page = text.read()
with tempfile.TemporaryDirectory() as folder:
    for name in os.listdir(here):
        if name.endswith(".toml"):
            shutil.copy(os.path.join(here, name), folder)
    now = fresh(page, folder)
    if not is_check:
        with open(page_file, "w") as text:
            text.write(now)
        draw(folder)
if is_check and now != page:
    print("docs/tutorial.md is not what the program says now; docs/tutorial/make.py writes it anew")
    sys.stdout.writelines(difflib.unified_diff(page.splitlines(True), now.splitlines(True)))
    sys.exit(1)
