"""What `python3 herbcalc VERB` in a clone and `python -m herbcalc VERB` run.

Run as a folder, this file first builds the clone's own Python (`.venv`) and installs the
course into it. So it uses the standard library alone, and no grammar newer than the first
Python 3: an old Python must get as far as the sentence that says it is too old.
"""
import os
import sys

OLDEST = (3, 11)
CLONE = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
VENV = os.path.join(CLONE, ".venv")
MEMORY = os.path.join(VENV, "herbcalc-setup.json")
LOG = os.path.join(VENV, "herbcalc-setup.log")
EXTRAS = {"test": "test", "present": "present"}  # verb -> what it needs beyond the course

USAGE = """\
The herbcalc course. From this clone:

  {0} open    open the lessons in the browser
  {0} test    run every test

The first run sets everything up inside the clone; it needs the internet for some minutes.
After that, {0} --help lists all there is."""


def called():
    """The words that start the course here, as they were typed."""
    python = os.path.basename(sys.executable or "python3")
    return (python[:-4] if python.lower().endswith(".exe") else python) + " " + sys.argv[0]


def python_of(venv):
    parts = ("Scripts", "python.exe") if os.name == "nt" else ("bin", "python")
    return os.path.join(venv, *parts)


def clean_environment():
    """The environment without what would let other Python folders leak in."""
    left_out = ("PYTHONPATH", "PYTHONHOME", "VIRTUAL_ENV", "PIP_TARGET", "PIP_PREFIX")
    environment = {k: v for k, v in os.environ.items() if k not in left_out}
    environment["PIP_USER"] = "0"
    return environment


def fingerprint():
    import hashlib

    with open(os.path.join(CLONE, "pyproject.toml"), "rb") as file:
        needs = file.read()
    # The clone's own path counts: an install points to where the clone stood.
    return hashlib.sha256(needs + CLONE.encode("utf-8", "surrogateescape")).hexdigest()


def remembered():
    """(fingerprint, extras) of the set-up that is there, or (None, [])."""
    import json

    if not os.path.exists(python_of(VENV)):
        return None, []
    try:
        with open(MEMORY, encoding="utf-8") as file:
            memory = json.load(file)
        return memory["fingerprint"], list(memory["extras"])
    except (OSError, ValueError, KeyError, TypeError):
        return None, []


def old_python_in_venv():
    import subprocess

    ask = "import sys, pip; sys.exit(sys.version_info[:2] < {!r})".format(OLDEST)
    quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    try:
        return subprocess.call([python_of(VENV), "-c", ask], env=clean_environment(), **quiet) != 0
    except OSError:
        return True


def make_venv():
    import shutil
    import subprocess

    try:
        import ensurepip  # noqa: F401  (Debian ships it apart)
        import venv
    except ImportError:
        sys.exit(
            "This Python cannot make a folder for the course's parts, because its 'venv' part is "
            "missing: on Debian or Ubuntu run 'sudo apt install python{}.{}-venv', then the same "
            "command again.".format(*sys.version_info)
        )
    print("Making a Python of the course's own in {} ...".format(VENV), flush=True)
    try:
        venv.create(VENV, clear=True, with_pip=True, symlinks=os.name != "nt")
    except OSError as error:
        sys.exit(
            "The folder {} cannot be written ({}): copy the clone to a place of your own and run "
            "the same command there.".format(VENV, error.strerror or error)
        )
    except subprocess.CalledProcessError as error:
        shutil.rmtree(VENV, ignore_errors=True)
        said = (error.output or b"").decode("utf-8", "replace").strip().splitlines()
        sys.exit("Python could not make {}: {}".format(VENV, said[-1] if said else error))


def install(extras):
    """Install the clone into its `.venv`; what pip says goes to the log."""
    import subprocess

    what = CLONE + ("[" + ",".join(extras) + "]" if extras else "")
    command = [python_of(VENV), "-m", "pip", "install", "--disable-pip-version-check"]
    command += ["--no-input", "--progress-bar=off", "--editable", what]
    print("Fetching the course's parts; the first time this takes some minutes ...", flush=True)
    terminal = sys.stdout.isatty()
    with open(LOG, "w", encoding="utf-8") as log:
        pip = subprocess.Popen(
            command,
            env=clean_environment(),
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
        )
        said = []
        for raw in pip.stdout:
            line = raw.decode("utf-8", "replace").rstrip()
            said.append(line)
            log.write(line + "\n")
            if terminal and line.startswith(("Collecting", "Installing")):
                print("\r  {:<70}".format(line[:70]), end="", flush=True)
        status = pip.wait()
    if terminal:
        print("\r" + " " * 72 + "\r", end="", flush=True)
    if status:
        sys.exit(what_went_wrong(said))


def what_went_wrong(said):
    text = "\n".join(said)
    if "No space left on device" in text:
        return "The disk is full: make some room (about 1 GB) and run the same command again."
    # pip falls back to "no such package" when the index does not answer at all.
    signs = ("onnection", "timed out", "name resolution", "ProxyError", "SSLError", "versions: none")
    if any(sign in text for sign in signs):
        return (
            "The course's parts could not be fetched, because Python's package index did not "
            "answer: check the internet connection and run the same command again. "
            "(What pip said is in {}.)".format(LOG)
        )
    errors = [line for line in said if line.startswith("ERROR")] or said[-1:] or ["no word"]
    return "The course's parts could not be installed; pip says: {} (More is in {}.)".format(
        errors[0], LOG
    )


def set_up(extras):
    """Make the clone's `.venv` hold the course and these extras; at once when it does."""
    import json

    wanted = fingerprint()
    found, have = remembered()
    if found == wanted and set(extras) <= set(have):
        return
    if not os.path.exists(python_of(VENV)) or old_python_in_venv():
        make_venv()
        have = []
    extras = sorted(set(extras) | set(have))
    install(extras)
    # Written last: a set-up that was cut short is done again.
    with open(MEMORY + ".new", "w", encoding="utf-8") as file:
        json.dump({"fingerprint": wanted, "extras": extras}, file)
    os.replace(MEMORY + ".new", MEMORY)
    print("Set-up done.", flush=True)


def hand_over(arguments):
    """Run the same verb with the Python that has the course installed."""
    import subprocess

    environment = dict(clean_environment(), HERBCALC_CALLED=called())
    # -P: a folder that happens to be called herbcalc where the student stands is not ours.
    command = [python_of(VENV), "-P", "-m", "herbcalc"] + arguments
    if os.name != "nt":
        os.execve(command[0], command, environment)
    process = subprocess.Popen(command, env=environment)
    while True:
        try:
            return process.wait()
        except KeyboardInterrupt:  # the verb hears it too, and ends in its own way
            continue


def run_from_clone(arguments):
    if sys.version_info < OLDEST:
        sys.exit(
            "The course needs Python {}.{} or newer and this is Python {}.{}: install a newer one "
            "and start the course with that.".format(*(OLDEST + tuple(sys.version_info[:2])))
        )
    if not arguments or (arguments[0] in ("-h", "--help") and remembered()[0] is None):
        print(USAGE.format(called()))
        return 0
    extra = EXTRAS.get(arguments[0])
    set_up([extra] if extra else [])
    return hand_over(arguments)


if __name__ == "__main__":
    # Run as a folder there is no package around this file; -m and the installed command have one.
    if not __package__ and os.path.exists(os.path.join(CLONE, "pyproject.toml")):
        try:
            sys.exit(run_from_clone(sys.argv[1:]))
        except KeyboardInterrupt:
            sys.exit("\nStopped; the same command goes on from here.")
    else:
        sys.path[0] = CLONE if not __package__ else sys.path[0]
        from herbcalc.command import main

        sys.exit(main())
