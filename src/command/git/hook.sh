#!/bin/sh
# Written by `piecewright git install`; `piecewright git remove` takes it away.
# Before a commit: are the staged patterns without errors, and laid out?
if ! command -v piecewright >/dev/null 2>&1; then
    echo "pre-commit: piecewright is not in PATH, so nobody has checked the staged patterns" >&2
    echo "  help: put its folder in PATH, or commit without the check: git commit --no-verify" >&2
    exit 1
fi
exec piecewright git staged
