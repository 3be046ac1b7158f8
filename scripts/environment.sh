# Sourced by the scripts beside it: one virtual environment in .venv, refreshed only when something changed.
# shellcheck shell=sh
venv=$root/.venv

find_python() {
    for candidate in "${PYTHON:-}" python3 python3.14 python3.13 python3.12 python3.11 python; do
        [ -n "$candidate" ] || continue
        if "$candidate" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then
            printf '%s\n' "$candidate"
            return
        fi
    done
    echo "stockcheck needs Python 3.11 or newer; none was found. Set PYTHON=/path/to/python3." >&2
    exit 2
}

# prepare run|test: the packages for that purpose and the project itself, in place.
prepare() {
    purpose=$1
    wanted=$(cksum <"$root/pyproject.toml")
    stamp=$venv/.stockcheck-$purpose
    if [ "$(cat "$stamp" 2>/dev/null)" != "$wanted" ] || ! [ -x "$venv/bin/python" ]; then
        python=$(find_python)
        if ! [ -x "$venv/bin/python" ]; then
            echo "Making a virtual environment in .venv ..." >&2
            rm -rf "$venv"
            if ! "$python" -m venv "$venv"; then
                rm -rf "$venv"
                echo "Python's venv module is missing; on Debian and Ubuntu: apt install python3-venv" >&2
                exit 2
            fi
        fi
        extra=
        [ "$purpose" = run ] || extra="[$purpose]"
        echo "Installing what stockcheck needs$([ -z "$extra" ] || echo " and its tests need") (a minute or two, once) ..." >&2
        if ! "$venv/bin/python" -m pip install --quiet --disable-pip-version-check --editable "$root$extra" >&2; then
            echo "The installation failed; the lines above say why. Nothing else was changed." >&2
            exit 2
        fi
        printf '%s\n' "$wanted" >"$stamp"
    fi
}

# build_table: when there is none, or when what it is made from is newer.
build_table() {
    table=$root/stockcheck/_table/stockcheck.db
    if ! [ -e "$table" ] || [ -n "$(find "$root/data" "$root/stockcheck/table" "$root/stockcheck/rules/company" "$root/stockcheck/advice/meetings.py" \( -name '*.csv' -o -name '*.json' -o -name '*.py' \) -newer "$table" 2>/dev/null | head -n 1)" ]; then
        echo "Building the species table ..." >&2
        "$venv/bin/python" -m stockcheck build --quiet >&2
    fi
}
