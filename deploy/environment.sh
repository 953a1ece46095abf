# Read by the scripts beside it, not run by itself: finds a Python, makes a virtual
# environment (.venv in the repository, or SOILBELL_VENV) and installs Soilbell into it, once for
# each state of pyproject.toml.

venv=${SOILBELL_VENV:-.venv}

say() {
    printf '%s\n' "$*" >&2
}

give_up() {
    say "deploy/$(basename "$0"): $*"
    exit 1
}

# Prints the first Python from 3.11 on; SOILBELL_PYTHON names one to be used instead.
find_python() {
    for name in ${SOILBELL_PYTHON:-python3.13 python3.12 python3.11 python3 python}; do
        if "$name" -c 'import sys; sys.exit(sys.version_info < (3, 11))' >/dev/null 2>&1; then
            printf '%s\n' "$name"
            return
        fi
    done
    return 1
}

make_venv() {
    python=$(find_python) || give_up \
        "I found no Python from 3.11 on. Install one (python.org, or your system's python3 package) and run me again."
    "$python" -c 'import ensurepip, venv' >/dev/null 2>&1 || give_up \
        "$python comes without its venv module here. Install it (on Debian and Ubuntu: apt-get install python3-venv) and run me again."
    problem=$("$python" -m venv --clear "$venv" 2>&1) || give_up \
        "I couldn't make the virtual environment $venv ($(printf '%s' "$problem" | tail -n 1)). Free some space or check who may write there, and run me again."
}

# prepare EXTRA: an environment with Soilbell and one extra ('' for none) in it.
prepare() {
    done="$venv/.has${1:+-$1}"
    state="$PWD $(cksum <pyproject.toml)"
    if [ -f "$done" ] && [ "$(cat "$done")" = "$state" ] && "$venv/bin/python" -c '' 2>/dev/null; then
        return
    fi
    # One whose Python has gone is made anew, and so is one of ours that was moved with the folder.
    if ! "$venv/bin/python" -m pip --version >/dev/null 2>&1 ||
        [ "$(cat "$venv/.place" 2>/dev/null || printf '%s' "$PWD")" != "$PWD" ]; then
        make_venv
        printf '%s\n' "$PWD" >"$venv/.place"
    fi
    log="$venv/install.log"
    if ! "$venv/bin/python" -m pip install --disable-pip-version-check --retries 2 \
        --editable ".${1:+[$1]}" >"$log" 2>&1; then
        if grep -qiE 'connection|resolution|timed? ?out|proxy|ssl|no matching distribution' "$log"; then
            give_up "I couldn't reach a Python package index to install from. Check the connection (or pip's settings) and run me again; $log has what pip said."
        fi
        tail -n 15 "$log" >&2
        give_up "pip could not install what Soilbell needs; above is what it said, in full in $log."
    fi
    printf '%s\n' "$state" >"$done"
}
