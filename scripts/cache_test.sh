#!/usr/bin/env bash
# What is kept outside the clone is whole or not there, and is never our own crate. By a cargo and a compiler that only pretend.
set -euo pipefail
cd "$(dirname "$0")/.."
room=$(mktemp -d)
trap 'rm -rf "$room"' EXIT
mkdir "$room/bin"
cat > "$room/bin/cargo" <<'FAKE'
#!/usr/bin/env bash
while [ "$1" != --root ]; do shift; done
mkdir -p "$2/bin" "$CARGO_TARGET_DIR"
# Broken off, it leaves half a tool.
[ -z "${BREAK-}" ] || { echo half > "$2/bin/saw"; exit 1; }
echo built >> "$ROOM/builds"
printf '#!/bin/sh\necho saw 1.2.3\n' > "$2/bin/saw"
chmod +x "$2/bin/saw"
FAKE
printf '#!/bin/sh\necho a compiler\n' > "$room/bin/rustc"
chmod +x "$room/bin/"*
export PATH=$room/bin:$PATH ROOM=$room PAIRWRIGHT_CACHE=$room/cache CARGO_TARGET_DIR=$room/clone
cache=scripts/cache.sh
fail() { echo "scripts/cache.sh: $1"; exit 1; }

# A tool.
if BREAK=yes $cache tool saw 1.2.3 saw; then fail 'a build that broke off passed'; fi
[ ! -e "$room/cache/saw-1.2.3/bin/saw" ] || fail 'half a tool lies where the whole one belongs'
if $cache tool saw 1.2.4 saw; then fail 'a tool of another version passed'; fi
[ ! -e "$room/cache/saw-1.2.4/bin/saw" ] || fail 'a tool of another version lies where the right one belongs'
$cache tool saw 1.2.3 saw & $cache tool saw 1.2.3 saw
wait
[ "$("$room/cache/saw-1.2.3/bin/saw")" = 'saw 1.2.3' ] || fail 'two at once: the tool is not there'
! command -v flock >/dev/null || [ "$(wc -l < "$room/builds")" = 2 ] || fail 'two at once built it twice'
$cache tools_done
[ -z "$(find "$room/cache" -maxdepth 1 -name '.making-*' -o -maxdepth 1 -name tools-build)" ] || fail 'something was left behind'

# Packages: one of other people, one of ours, and what either made.
part=$room/clone/debug
mkdir -p "$part/.fingerprint/theirs-0a" "$part/.fingerprint/pairwright-0b" "$part/build/theirs-0a" "$part/build/pairwright-0b" "$part/deps" "$part/incremental/pairwright-1"
touch "$part/deps/libtheirs-0a.rlib" "$part/deps/theirs-0a.d" "$part/deps/libpairwright-0b.rlib" "$part/deps/demo-0b" "$part/pairwright-app"
$cache keep debug release
kept() { (cd "$1" && find . -type f -o -type d -empty | sort | tr '\n' ' '); }
theirs='./.fingerprint/theirs-0a ./build/theirs-0a ./deps/libtheirs-0a.rlib ./deps/theirs-0a.d '
[ "$(kept "$room"/cache/packages-*/debug)" = "$theirs" ] || fail "kept: $(kept "$room"/cache/packages-*/debug)"
[ ! -e "$(echo "$room"/cache/packages-*)/release" ] || fail 'what was never compiled is kept'
CARGO_TARGET_DIR=$room/other $cache take debug release
[ "$(kept "$room/other/debug")" = "$theirs" ] || fail "taken: $(kept "$room/other/debug")"
# A clone that has compiled goes on with its own.
touch "$room/other/debug/deps/libtheirs-0c.rlib"
rm "$room/other/debug/deps/theirs-0a.d"
CARGO_TARGET_DIR=$room/other $cache take debug
[ ! -e "$room/other/debug/deps/theirs-0a.d" ] || fail 'a clone that has compiled was written over'
# One that was broken off while it took takes again.
mv "$room/other/debug/.fingerprint" "$room/other/debug/.fingerprint-taken"
CARGO_TARGET_DIR=$room/other $cache take debug
[ -e "$room/other/debug/deps/theirs-0a.d" ] && [ -d "$room/other/debug/.fingerprint/theirs-0a" ] || fail 'what was half taken stays half'
# Another lock file, compiler or profile is another thing.
printf '#!/bin/sh\necho a later compiler\n' > "$room/bin/rustc"
CARGO_TARGET_DIR=$room/third $cache take debug
[ ! -e "$room/third" ] || fail 'packages of another compiler were taken'
for number in 1 2 3; do
  printf '#!/bin/sh\necho compiler %s\n' "$number" > "$room/bin/rustc"
  $cache keep debug
done
[ "$(find "$room/cache" -maxdepth 1 -name 'packages-*' | wc -l)" = 3 ] || fail 'more than three versions are kept'
echo 'scripts/cache.sh: all as it should be'
