#!/bin/sh
# Make .venv and install one lock file and the package into it: install.sh default|dev
# PYTHON names the interpreter to use; without it the usual names are tried in turn.
set -eu
cd "$(dirname "$0")/.."
kit=$1
venv=.venv

say() { printf 'set-up   %s\n' "$1"; }

suits() {
    "$1" -c 'import sys, venv; sys.exit(not (3, 11) <= sys.version_info[:2] < (3, 14))' >/dev/null 2>&1
}

find_python() {
    for candidate in ${PYTHON:-python3 python3.13 python3.12 python3.11 python}; do
        if suits "$candidate"; then
            echo "$candidate"
            return
        fi
    done
    say "no Python from 3.11 to 3.13 found (tried: ${PYTHON:-python3 python3.13 python3.12 python3.11 python})." >&2
    say "Install one, or name it: make demo PYTHON=/path/to/python3.12" >&2
    exit 1
}

# Some systems ship venv without its own copy of pip; the pip beside the interpreter then fills it.
make_venv() {
    if "$1" -c 'import ensurepip' >/dev/null 2>&1; then
        "$1" -m venv --clear "$venv"
    else
        "$1" -m venv --clear --without-pip "$venv"
        "$1" -m pip --python "$venv/bin/python" install -qq pip
    fi
}

if ! suits "$venv/bin/python" || ! "$venv/bin/python" -m pip --version >/dev/null 2>&1; then
    python=$(find_python)
    say "making $venv with $("$python" --version)"
    make_venv "$python"
fi
say "installing requirements/$kit.lock (the first time takes a minute or two)"
"$venv/bin/python" -m pip install -qq --disable-pip-version-check --require-hashes -r "requirements/$kit.lock"
"$venv/bin/python" -m pip install -qq --disable-pip-version-check --no-deps --no-build-isolation --editable .
"$venv/bin/python" -m pip check >/dev/null || {
    say "requirements/$kit.lock no longer matches pyproject.toml: run make lock" >&2
    "$venv/bin/python" -m pip check >&2
    exit 1
}
