#!/usr/bin/env bash
# What takes minutes to make and is the same in every clone lies outside the clone, by version: tools, the Python environment, and
# the packages of other people as compiled. Each is made beside its place and moved there whole, so that what a build that was broken off
# leaves behind is never taken for the thing, and two clones may make the same one at once: the one that comes last is thrown away.
#
# Our own crate is never shared: cargo tells it apart by name and time of change, not by folder, and would run another clone's tests.
set -euo pipefail
cache=${PAIRWRIGHT_CACHE:?set by the Makefile}
target=${CARGO_TARGET_DIR:-target}
# Two sides of `make test` share make's tokens, and cargo would ask for one.
unset MAKEFLAGS MFLAGS

# A folder to make things in, gone at the end; one that a broken run left is cleared away after a day.
begin() {
  mkdir -p "$cache"
  find "$cache" -maxdepth 1 -name '.making-*' -mmin +1440 -exec rm -rf {} + 2>/dev/null || true
  making=$(mktemp -d "$cache/.making-XXXXXX")
  trap 'rm -rf "$making"' EXIT
}

# tool NAME VERSION COMMAND [ARGUMENT FOR cargo install]…: a command line tool, at $cache/NAME-VERSION/bin/COMMAND.
tool() {
  local name=$1 version=$2 command=$3 place build
  shift 3
  place=$cache/$name-$version/bin
  begin
  build=$making/build
  # Tools share most of their packages, so they are built in one folder; whoever comes second waits, and finds the tool.
  if command -v flock >/dev/null; then
    exec 9>"$cache/tools.lock"
    flock 9
    if "$place/$command" --version 2>/dev/null | grep -q " $version$"; then return; fi
    build=$cache/tools-build
  fi
  # Built once and hardly worked: quick to build matters more than quick to run.
  CARGO_PROFILE_RELEASE_OPT_LEVEL=0 CARGO_PROFILE_RELEASE_LTO=off CARGO_PROFILE_RELEASE_CODEGEN_UNITS=16 CARGO_PROFILE_RELEASE_DEBUG=0 \
    CARGO_PROFILE_RELEASE_STRIP=true CARGO_TARGET_DIR=$build cargo install --quiet --locked --root "$making" "$name@$version" "$@" 9>&-
  "$making/bin/$command" --version | grep -q " $version$"
  mkdir -p "$place"
  mv -f "$making/bin/$command" "$place/$command"
}

# tools_done: what the tools were built from goes, unless another clone is at it.
tools_done() {
  [ -d "$cache/tools-build" ] || return 0
  exec 9>"$cache/tools.lock"
  if flock -n 9; then rm -rf "$cache/tools-build"; fi
}

# python_place: where the environment with the pinned packages belongs.
python_place() {
  echo "$cache/python-$({ python3 --version; cat crates/hydraulics/tests/second_opinion/requirements.txt; } | cksum | tr -s ' ' '-')"
}

# python: makes that environment.
python() {
  local place
  place=$(python_place)
  begin
  python3 -m venv "$making/env"
  "$making/env/bin/python" -m pip install --quiet --disable-pip-version-check --requirement crates/hydraulics/tests/second_opinion/requirements.txt
  [ -e "$place" ] || mv "$making/env" "$place"
}

# Compiled packages are of use again for the same compiler, lock file, features and profiles.
packages() {
  echo "$cache/packages-$({ rustc -vV; cat Cargo.lock Cargo.toml crates/*/Cargo.toml .cargo/config.toml; echo "${RUSTFLAGS-}"; } | cksum | tr -s ' ' '-')"
}

# take PART…: lays what is kept of these parts of the target folder into a clone that has none of them yet.
take() {
  local part kept
  kept=$(packages)
  for part in "$@"; do
    [ -d "$kept/$part" ] && [ ! -d "$target/$part/.fingerprint" ] || continue
    mkdir -p "$target/$part"
    rm -rf "$target/$part/.fingerprint-taken"
    cp -a "$kept/$part/build" "$kept/$part/deps" "$target/$part/"
    # Without its fingerprint cargo takes nothing for made, so this comes last, and whole.
    cp -a "$kept/$part/.fingerprint" "$target/$part/.fingerprint-taken"
    mv "$target/$part/.fingerprint-taken" "$target/$part/.fingerprint"
  done
}

# keep PART…: keeps the packages of other people that were compiled for these parts of the target folder.
keep() {
  local part kept unit hash made
  kept=$(packages)
  for part in "$@"; do
    [ -d "$target/$part/.fingerprint" ] && [ ! -e "$kept/$part" ] || continue
    begin
    mkdir -p "$making/part/build" "$making/part/deps" "$making/part/.fingerprint"
    for unit in "$target/$part/.fingerprint"/*; do
      unit=${unit##*/}
      case $unit in pairwright-*) continue ;; esac
      hash=${unit##*-}
      cp -a "$target/$part/.fingerprint/$unit" "$making/part/.fingerprint/"
      [ ! -d "$target/$part/build/$unit" ] || cp -a "$target/$part/build/$unit" "$making/part/build/"
      made=("$target/$part/deps/"*"-$hash"*)
      [ ! -e "${made[0]}" ] || cp -a "${made[@]}" "$making/part/deps/"
    done
    mkdir -p "$(dirname "$kept/$part")"
    [ -e "$kept/$part" ] || mv "$making/part" "$kept/$part"
    rm -rf "$making"
  done
  # Those of the last three versions stay.
  # shellcheck disable=SC2012 # our own names hold no white space
  ls -dt "$cache"/packages-* | tail -n +4 | while read -r old; do rm -rf "$old"; done
}

"$@"
