#!/usr/bin/env python3
"""Opens the reports and the field sheets of all demo jobs, and of jobs that are hard on them, in headless Chromium.

Looks for: messages on the console, requests that leave the file, texts of a drawing that overlap or stick out (by their
measured boxes), pages wider than a phone or a screen, scripts or handlers that came in with a name, skipped headings,
drawings without a name, tables without heads. The digests of the inputs are held against its own. The page is opened
as it is for the first two; the rest is measured from inside a copy whose security policy is taken out and to which a
script is added.

Usage: report_in_browser.py RODREACH [--browser CHROMIUM] [--selftest] [--shots FOLDER]
"""

import argparse
import hashlib
import html
import json
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

sys.path.insert(0, str(pathlib.Path(__file__).parent))
from report_pages import jobs  # noqa: E402

HERE = pathlib.Path(__file__).parent
DEMO = HERE.parent / "demo-data"
WIDTHS = [390, 1200]
QUIET = [
    "--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync", "--disable-default-apps",
    "--disable-extensions", "--host-resolver-rules=MAP * ~NOTFOUND",
]  # fmt: skip


def requests(log):
    """Gives what a page asked the network for; what the browser asks for itself has no origin."""
    try:
        events = json.loads(log)["events"]
    except json.JSONDecodeError:
        # a browser that was ended in the middle leaves the list open
        events = json.loads(log.rstrip().rstrip(",") + "]}")["events"]
    asked = set()
    for event in events:
        about = event.get("params") or {}
        url = str(about.get("url", ""))
        if "method" in about and about.get("initiator") != "not an origin" and re.match("(https?|wss?|ftp):", url):
            asked.add(url)
    return sorted(asked)


class Browser:
    def __init__(self, path, folder):
        self.path, self.folder = path, folder

    def run(self, url, *more):
        """Opens a page and gives what it became and what was said of it."""
        profile = tempfile.mkdtemp(dir=self.folder)
        call = [self.path, *QUIET, f"--user-data-dir={profile}", *more, url]
        ran = subprocess.run(call, capture_output=True, text=True, timeout=180)
        shutil.rmtree(profile, ignore_errors=True)
        return ran.stdout, ran.stderr

    def plainly(self, page):
        """Opens a page as it is: what the console says, and which requests leave the file."""
        log = self.folder / "net.json"
        log.unlink(missing_ok=True)
        _, said = self.run(
            page.as_uri(), "--enable-logging=stderr", "--v=0", f"--log-net-log={log}", "--dump-dom"
        )
        console = [line for line in said.splitlines() if "CONSOLE" in line]
        if not log.exists():
            sys.exit("the browser wrote no log of its requests: nothing was checked")
        return console, requests(log.read_text(encoding="utf-8", errors="replace"))

    def measured(self, page, change=lambda text: text):
        """Measures a copy of a page at every width."""
        text = page.read_text(encoding="utf-8")
        policy = re.compile(r'<meta http-equiv="Content-Security-Policy"[^>]*>')
        if len(policy.findall(text)) != 1:
            sys.exit(f"{page}: the page states no security policy, or more than one")
        script = (HERE / "report_pages" / "look.js").read_text(encoding="utf-8")
        text = change(policy.sub("", text)).replace("</body>", f"<script>{script}</script></body>")
        copy = self.folder / "copy.html"
        copy.write_text(text, encoding="utf-8")
        frame = self.folder / "frame.html"
        frames = "".join(f'<iframe src="copy.html" style="width:{w}px;height:900px;border:0"></iframe>' for w in WIDTHS)
        frame.write_text(
            '<!DOCTYPE html><meta charset="utf-8"><title>frame</title><pre id="found"></pre>'
            "<script>addEventListener('message',"
            " e => document.getElementById('found').append(e.data + '\\n'))</script>" + frames,
            encoding="utf-8",
        )
        dom, said = self.run(
            frame.as_uri(), f"--window-size={max(WIDTHS) + 200},1000", "--virtual-time-budget=30000", "--dump-dom"
        )
        found = re.search(r'<pre id="found">(.*?)</pre>', dom, re.S)
        lines = [json.loads(html.unescape(line)) for line in (found.group(1) if found else "").splitlines()]
        measured = {it["width"]: it for it in lines}
        if sorted(measured) != WIDTHS:
            sys.exit(f"measured at {sorted(measured)} px, not at {WIDTHS}: {said[-2000:]}")
        return measured


def faults(name, console, asked, measured):
    """Lists what is wrong with a page, in words."""
    found = [f"{name}: the console says {line}" for line in console]
    found += [f"{name}: asks for {url}" for url in asked]
    for width, it in measured.items():
        at = f"{name} at {width} px"
        found += [f"{at}: drawing {d}: {a!r} and {b!r} overlap" for d, a, b in it["overlaps"]]
        found += [f"{at}: drawing {d}: {text!r} sticks out" for d, text in it["outside"]]
        found += [f"{at}: the heading {text!r} skips a level or is blank" for text in it["headings"]]
        for key, words in [
            ("scripts", "scripts"),
            ("handlers", "elements that run, load or style something"),
            ("links", "links that leave the page"),
            ("unnamed", "drawings without a name and words"),
            ("tables", "tables without heads"),
            ("wider", "px wider than the window"),
        ]:
            if it[key]:
                found.append(f"{at}: {it[key]} {words}")
        if not it["figures"] or not it["texts"]:
            found.append(f"{at}: there is nothing drawn")
    return found


def fingerprints(program, job):
    """Holds the sizes and digests that a report names against those this script takes itself."""
    ran = subprocess.run([program, "report", str(job), "--format", "json"], capture_output=True, text=True)
    inputs = json.loads(ran.stdout)["report"]["inputs"]
    found = []
    for it in inputs:
        data = (job / it["name"]).read_bytes()
        if (it["bytes"], it["sha256"]) != (len(data), hashlib.sha256(data).hexdigest()):
            found.append(f"{job.name}: {it['name']} is told as {it['bytes']} bytes, {it['sha256']}")
    if "job.toml" not in [it["name"] for it in inputs]:
        found.append(f"{job.name}: the job file is not among the inputs")
    return found


def report(program, job, page):
    ran = subprocess.run([program, "report", str(job), "-o", str(page)], capture_output=True, text=True)
    if ran.returncode not in (0, 1):
        sys.exit(f"rodreach report {job}: {ran.stderr}")


def sheet(program, job, page, *more):
    ran = subprocess.run([program, "sheet", str(job), *more, "-o", str(page)], capture_output=True, text=True)
    if ran.returncode != 0:
        sys.exit(f"rodreach sheet {job}: {ran.stderr}")


def sheet_faults(program, job, page):
    """Holds the plan of a sheet against its values: every column's number in the walk must be drawn."""
    ran = subprocess.run([program, "sheet", str(job), "--format", "json"], capture_output=True, text=True)
    columns = json.loads(ran.stdout)["columns"]
    text = page.read_text(encoding="utf-8")
    drawn = set(re.findall(r">no\. ([0-9]+)(?:, start|, end)?</text>", text))
    told = " ".join(re.findall(r"Left without a label[^<]*|Not drawn[^<]*", text))
    number = {it["mark"]: str(at) for at, it in enumerate(columns, 1)}
    lost = [mark for mark, at in number.items() if at not in drawn and html.escape(mark, False) not in told]
    return [f"{page.name}: {mark} is neither drawn nor said to be left out" for mark in lost]


def selftest(browser, page):
    """What must be seen is put into a page, and must be seen."""
    text = page.read_text(encoding="utf-8")
    once = re.search(r"<text [^>]*>[^<]+</text>", text).group(0)
    # the same label a little further down, as if two had been placed on each other
    lower = re.sub(r' y="([0-9.]+)"', lambda it: f' y="{float(it.group(1)) + 1}"', once, count=1)
    measured = browser.measured(page, lambda text: text.replace(once, once + lower, 1))
    if not all(it["overlaps"] for it in measured.values()):
        sys.exit("SELFTEST FAILED: two labels on each other were not seen")
    wide = browser.measured(page, lambda text: text.replace("<main>", '<main><div class="right">' + "W" * 400 + "</div>", 1))
    if not wide[390]["wider"]:
        sys.exit("SELFTEST FAILED: a page wider than a phone was not seen")
    run = browser.measured(page, lambda text: text.replace("<main>", "<main><script>1</script><h5>x</h5>", 1))
    if not run[1200]["scripts"] or not run[1200]["headings"]:
        sys.exit("SELFTEST FAILED: a script or a skipped heading was not seen")
    loud = browser.folder / "loud.html"
    loud.write_text(text.replace("<main>", "<main><script>alert(1)</script>", 1), encoding="utf-8")
    console, _ = browser.plainly(loud)
    if not console:
        sys.exit("SELFTEST FAILED: a script that the policy stops was not heard on the console")
    policy = re.compile(r'<meta http-equiv="Content-Security-Policy"[^>]*>')
    away = policy.sub("", text).replace("<main>", '<main><img src="http://127.0.0.1:9/x.png" alt="">', 1)
    loud.write_text(away, encoding="utf-8")
    _, asked = browser.plainly(loud)
    if not any("127.0.0.1:9" in url for url in asked):
        sys.exit("SELFTEST FAILED: a request that leaves the file was not seen")
    print(f"selftest of {page.name}: overlapping labels, a wide page, a script, a skipped heading and a request were all seen")


def shots(browser, pages, folder):
    """Writes what a person looks at: a screen, a phone, letter and A4."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, page in pages:
        browser.run(page.as_uri(), "--window-size=1200,2400", f"--screenshot={folder / (name + '-screen.png')}")
        frame = browser.folder / "phone.html"
        frame.write_text(
            f'<body style="margin:0"><iframe src="{page.as_uri()}" style="width:390px;height:2400px;border:0">',
            encoding="utf-8",
        )
        browser.run(frame.as_uri(), "--window-size=600,2400", f"--screenshot={folder / (name + '-phone.png')}")
        for paper in ("letter", "A4"):
            copy = browser.folder / "paper.html"
            text = page.read_text(encoding="utf-8").replace("@page {", f"@page {{ size: {paper};", 1)
            copy.write_text(text, encoding="utf-8")
            browser.run(
                copy.as_uri(), "--no-pdf-header-footer", f"--print-to-pdf={folder / (name + '-' + paper + '.pdf')}"
            )


def main():
    arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    arguments.add_argument("program")
    arguments.add_argument("--browser", default="chromium")
    arguments.add_argument("--selftest", action="store_true")
    arguments.add_argument("--shots", type=pathlib.Path)
    given = arguments.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        browser = Browser(given.browser, folder)
        demos = sorted(path for path in DEMO.iterdir() if (path / "job.toml").exists())
        if given.selftest:
            page = folder / "page.html"
            report(given.program, demos[0], page)
            selftest(browser, page)
            blank = folder / "sheet.html"
            sheet(given.program, demos[0], blank)
            selftest(browser, blank)
            text = blank.read_text(encoding="utf-8")
            blank.write_text(re.sub(r">no\. 2</text>", ">no. 0</text>", text), encoding="utf-8")
            if not sheet_faults(given.program, demos[0], blank):
                sys.exit("SELFTEST FAILED: a column without its number in the walk was not seen")
            return print("selftest: a column without its number in the walk was seen")
        pages, wrong, texts = [], [], 0
        for job in demos + jobs.every(folder / "jobs"):
            page = folder / f"{job.name}.html"
            report(given.program, job, page)
            pages.append((job.name, page))
            blank = folder / f"{job.name}-sheet.html"
            sheet(given.program, job, blank)
            pages.append((blank.stem, blank))
            wrong += sheet_faults(given.program, job, blank)
            if job in demos:
                wrong += fingerprints(given.program, job)
        if given.shots:
            return shots(browser, pages, given.shots)
        for name, page in pages:
            console, asked = browser.plainly(page)
            measured = browser.measured(page)
            texts += measured[1200]["texts"]
            wrong += faults(name, console, asked, measured)
        for fault in wrong[:60]:
            print(fault)
        if wrong:
            sys.exit(f"{len(wrong)} faults in {len(pages)} pages")
        print(f"{len(pages)} reports and sheets, {texts} labels: nothing overlaps, sticks out, runs or leaves the file")
    return None


if __name__ == "__main__":
    main()
