#!/usr/bin/env python3
"""Types lines with tabs into real shells, bash, zsh and fish, that have overbend's
completion scripts, and looks at the words that the program is then given. A shell
that is missing is a failure.

usage: check_completion.py OVERBEND
"""
import os, pty, re, select, subprocess, sys, tempfile, time
from pathlib import Path

program = os.path.abspath(sys.argv[1])

# what is typed, and the words that overbend is given
LINES = [
    ("overbend manu\t", ["manual"]),
    ("overbend help tab\t", ["help", "table"]),
    ("overbend stock mat\t", ["stock", "materials"]),
    ("overbend show jo\t --js\t", ["show", "job-one.toml", "--json"]),
    ("overbend make job-one.toml --paper tab\t", ["make", "job-one.toml", "--paper", "tabloid"]),
    ("overbend make job-one.toml --dxf r12-\t", ["make", "job-one.toml", "--dxf", "r12-plain"]),
    ("overbend show job-one.toml --units m\t", ["show", "job-one.toml", "--units", "mm"]),
    ("overbend read dra\t --material 1018\t", ["read", "drawing.dxf", "--material", "1018 cold drawn"]),
    ("overbend table job-one.toml --vary bend.radius_at=ins\t", ["table", "job-one.toml", "--vary", "bend.radius_at=inside"]),
    ("overbend table job-one.toml --vary tube.material=S235,1018\t", ["table", "job-one.toml", "--vary", "tube.material=S235,1018 cold drawn"]),
    ("overbend table job-one.toml --columns block.radius_mm,press.trav\t", ["table", "job-one.toml", "--columns", "block.radius_mm,press.travel_mm"]),
    ("overbend completion power\t", ["completion", "powershell"]),
]

# and a tab within a word, which fish has no way to be asked about
WITHIN = [("overbend table job-one.toml --vary bend.radius_\tins\t", ["table", "job-one.toml", "--vary", "bend.radius_at=inside"])]

# A wrapper of that name answers the scripts, and otherwise prints what it is given.
WRAPPER = """#!/bin/sh
case $1 in __complete*|completion) [ "$2" = powershell ] || exec "$PROGRAM" "$@";; esac
printf '<<<'; for w in "$@"; do printf '(%s)' "$w"; done; printf '>>>\\n'
"""


def fail(shell, text):
    sys.exit(f"check_completion.py: {shell}: {text}")


class Shell:
    """A shell on a terminal of its own."""

    def __init__(self, argv, env, cwd):
        self.name = argv[0]
        self.pid, self.fd = pty.fork()
        if self.pid == 0:
            os.chdir(cwd)
            try:
                os.execvpe(argv[0], argv, env)
            finally:
                os._exit(127)

    def wait(self, pattern, seconds=60):
        """Reads until the pattern shows."""
        seen, end = "", time.time() + seconds
        while time.time() < end:
            if select.select([self.fd], [], [], 0.1)[0]:
                try:
                    seen += os.read(self.fd, 65536).decode("utf-8", "replace")
                except OSError:
                    break
            if found := re.search(pattern, seen, re.S):
                return found
        fail(self.name, f"{pattern!r} never came, only {seen!r}")

    def quiet(self, seconds=0.5):
        """Reads until nothing has come for a while: a completion is drawn."""
        while select.select([self.fd], [], [], seconds)[0]:
            os.read(self.fd, 65536)

    def type(self, text):
        os.write(self.fd, text.encode())


def typed(shell, line):
    """Types a line, each tab when what stands before it was taken."""
    for part in re.split("(\t)", line):
        shell.type(part)
        if part == "\t":
            shell.quiet()
    shell.type("\r")
    words = shell.wait(r"<<<(.*?)>>>").group(1)
    return re.findall(r"\((.*?)\)", words)


with tempfile.TemporaryDirectory() as tmp:
    tmp = Path(tmp)
    (tmp / "bin").mkdir()
    (tmp / "bin/overbend").write_text(WRAPPER)
    (tmp / "bin/overbend").chmod(0o755)
    work = tmp / "work"
    work.mkdir()
    for name in ["job-one.toml", "notes.txt", "jottings.txt", "drawing.dxf", "drawing.png"]:
        (work / name).touch()
    env = {"PATH": f"{tmp / 'bin'}:/usr/bin:/bin", "HOME": str(tmp), "TERM": "dumb", "PROGRAM": program, "LANG": "C.UTF-8"}
    scripts = {}
    for shell in ["bash", "zsh", "fish", "powershell"]:
        made = subprocess.run([program, "completion", shell], capture_output=True, text=True)
        if made.returncode or made.stderr:
            fail(shell, made.stderr)
        scripts[shell] = made.stdout
        (tmp / f"completion.{shell}").write_text(made.stdout)

    (tmp / "bashrc").write_text(f"PS1='ready> '\n. /usr/share/bash-completion/bash_completion\n. {tmp}/completion.bash\n")
    (tmp / ".zshrc").write_text(f"PS1='ready> '\nfpath=({tmp}/zfunc $fpath)\nautoload -U compinit\ncompinit -u -d {tmp}/dump\n")
    (tmp / "zfunc").mkdir()
    (tmp / "zfunc/_overbend").write_text(scripts["zsh"])
    for argv in [["bash", "--noprofile", "--rcfile", str(tmp / "bashrc"), "-i"], ["zsh", "-i"]]:
        shell = Shell(argv, env, work)
        shell.wait("ready> ")
        for line, want in LINES + WITHIN:
            if (got := typed(shell, line)) != want:
                fail(argv[0], f"{line!r} became {got}, not {want}")
        shell.type("exit\r")
        os.waitpid(shell.pid, 0)
        print(f"{argv[0]}: {len(LINES + WITHIN)} lines")

    # fish says itself what would follow a line.
    for line, want in LINES:
        said = subprocess.run(
            ["fish", "--no-config", "-c", f"source {tmp}/completion.fish; complete -C $argv[1]", line.replace("\t", "")],
            cwd=work, env=env, capture_output=True, text=True,
        )
        if said.returncode or said.stderr:
            fail("fish", said.stderr)
        words = [l.split("\t")[0] for l in said.stdout.splitlines()]
        if want[-1] not in words:
            fail("fish", f"after {line!r} come {words}, without {want[-1]!r}")
    print(f"fish: {len(LINES)} lines")

    # PowerShell is in no repository of this system: its script is looked at and not run.
    if "Register-ArgumentCompleter -CommandName 'overbend'" not in scripts["powershell"]:
        fail("powershell", "the script registers nothing")
    print("powershell: script written, NOT RUN")
