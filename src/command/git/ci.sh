#!/bin/sh
# Written by `piecewright git install --ci`; `piecewright git remove` takes it away.
# Tells a reviewer, in Markdown, what changed in the patterns: what is to be printed, cut and bought again.
#
#   sh THIS-FILE BASE [OUT.md]
#
# BASE is what the checked-out files are compared with: a commit, a tag or a branch, such as origin/main.
# It must be in the clone: let the CI fetch the history, not only the newest commit.
# Without OUT.md, or with -, the Markdown goes to standard output. Needs git and piecewright in PATH.
# Exit code 0 whether anything changed or not; 2 where a pattern could not be compared: the Markdown names it, and tells of the others.
set -eu

fail() {
    echo "pattern changes: $1" >&2
    exit 2
}

[ $# -ge 1 ] && [ $# -le 2 ] && [ -n "$1" ] || fail "name the revision to compare with: sh $0 BASE [OUT.md]"
base=$1
out=${2:--}
case $out in
- | /*) ;;
*) out=$(pwd)/$out ;;
esac

command -v piecewright >/dev/null 2>&1 || fail "piecewright is not in PATH"
top=$(git rev-parse --show-toplevel) || fail "there is no repository here"
cd "$top"
printf '%s^{commit}\n' "$base" | git cat-file --batch-check | grep -q ' commit [0-9]*$' ||
    fail "there is no revision $base in this clone; does the CI fetch the history?"

code=0
told=$(piecewright diff --format markdown -- "$base:" .) || code=$?
# 1 says that something changed.
[ "$code" -le 1 ] || [ -n "$told" ] || fail "the patterns could not be compared"

if [ "$out" = - ]; then
    printf '%s\n' "$told"
else
    printf '%s\n' "$told" >"$out.unfinished"
    mv -- "$out.unfinished" "$out"
fi
[ "$code" -le 1 ] || fail "not all patterns could be compared"
