#!/usr/bin/env python3
"""Ends `overbend make` at random moments, 200 times by SIGKILL and 45 times by
signals that ask, while it replaces one job's kit by another's. After a signal
that asks the folder must be one of both kits, whole; after SIGKILL the next run
must leave its own, whole, and nothing besides. Also two runs at once: one wins or
both do, and the folder is a whole kit.

usage: check_kills.py OVERBEND JOB_A JOB_B
"""
import os, random, signal, subprocess, sys, tempfile, time
from pathlib import Path

program, *jobs = sys.argv[1:]
seed = int(os.environ.get("RAPID_SEED", "1"))
random.seed(seed)


def make(job, out):
    return [program, "make", job, "-o", str(out), "--force"]


def run(job, out):
    return subprocess.run(make(job, out), capture_output=True, text=True)


def files(folder):
    return {str(p.relative_to(folder)): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def fail(text):
    sys.exit(f"check_kills.py (seed {seed}): {text}")


with tempfile.TemporaryDirectory() as tmp:
    tmp = Path(tmp)
    kits = []
    for i, job in enumerate(jobs):
        if run(job, tmp / f"kit{i}").returncode:
            fail(f"{job} can't be made")
        kits.append(files(tmp / f"kit{i}"))
    if kits[0] == kits[1]:
        fail("both jobs make the same kit")
    target = tmp / "in" / "kit"
    target.mkdir(parents=True)
    def waiting(p, name):
        """Waits until something of a name is there, or the run has ended."""
        while p.poll() is None and not (target / ".overbend" / name).exists():
            pass

    def end(job, sig, when):
        """Starts a run and ends it at a random moment; returns how it went."""
        p = subprocess.Popen(make(job, target), stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True)
        if when == 0:  # anywhere
            time.sleep(random.uniform(0, 0.15))
        elif when == 1:  # while new files are written
            waiting(p, "new")
            time.sleep(random.uniform(0, 0.03))
        else:  # while they are put in place
            waiting(p, "undo")
            time.sleep(random.uniform(0, 0.004))
        p.send_signal(sig)
        return p.communicate()[1], p.returncode

    killed = undone = removed = mixed = 0
    for i in range(200):
        fresh = i % 12 == 0
        if fresh:
            for p in sorted(target.rglob("*"), reverse=True):
                p.rmdir() if p.is_dir() else p.unlink()
            target.rmdir()
        _, code = end(jobs[i % 2], signal.SIGKILL, i % 3)
        killed += code == -signal.SIGKILL
        there = files(target) if target.exists() else None
        mixed += there is not None and there not in kits
        if fresh and there not in (None, *kits):
            fail(f"run {i}: a new folder is there in part")
        after = run(jobs[i // 2 % 2], target)
        if after.returncode:
            fail(f"run {i}: the next run: {after.stderr}")
        undone += "put back" in after.stderr
        removed += "was removed" in after.stderr
        if files(target) != kits[i // 2 % 2]:
            fail(f"run {i}: the next run leaves no whole kit: {after.stderr}")
        if [p.name for p in target.parent.iterdir()] != ["kit"] or any(p.is_dir() for p in target.iterdir()):
            fail(f"run {i}: something is left behind")
    if killed < 60 or undone < 10 or removed < 10:
        fail(f"only {killed} runs were killed, {undone} undone and {removed} cleared: it shows nothing")
    print(f"SIGKILL: {killed} of 200 runs ended by it, {mixed} of them while the folder held more or less than a kit; "
          f"the next run put back {undone} and removed what {removed} left: whole each time")

    heeded = 0
    for i in range(45):
        said, code = end(jobs[i % 2], (signal.SIGINT, signal.SIGTERM, signal.SIGHUP)[i % 3], i // 3 % 3)
        heeded += code < 0
        if files(target) not in kits or any(p.is_dir() for p in target.iterdir()):
            fail(f"signal {i}: no whole kit: {said}")
    print(f"signals that ask: {heeded} of 45 runs ended by one, the folder a whole kit each time")

    busy = 0
    for i in range(20):
        pair = [subprocess.Popen(make(job, target), stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True) for job in jobs]
        said = [(p.communicate()[1], p.returncode) for p in pair]
        for text, code in said:
            if code and "another overbend is writing there" not in text:
                fail(f"pair {i}: {text}")
            busy += code != 0
        if all(code for _, code in said) or files(target) not in kits:
            fail(f"pair {i}: {said}")
    print(f"two at once: the loser said so {busy} times of 20, the folder a whole kit each time")
