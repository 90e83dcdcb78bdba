#!/usr/bin/env bash
# Fetches the typesetter the press is measured against into the user's cache. Only the bench uses it.
set -eu
folder="${XDG_CACHE_HOME:-$HOME/.cache}/castoff/typst"
package="@myriaddreamin/typst-ts-node-compiler"
version="0.7.0"
if [ -d "$folder/node_modules/$package" ]; then exit 0; fi
mkdir -p "$folder"
npm install --no-audit --no-fund --silent --prefix "$folder" "$package@$version"
