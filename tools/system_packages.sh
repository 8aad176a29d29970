#!/bin/sh
# Sees to it that a Debian package is there; without root it prints the command to run.
# usage: system_packages.sh PACKAGE...
set -eu
missing=""
for package in "$@"; do
  case "$package" in
    chromium) command -v chromium >/dev/null 2>&1 || missing="$missing chromium" ;;
    postgresql) ls /usr/lib/postgresql/*/bin/initdb >/dev/null 2>&1 || missing="$missing postgresql" ;;
    *) dpkg -s "$package" >/dev/null 2>&1 || missing="$missing $package" ;;
  esac
done
[ -z "$missing" ] && exit 0
if [ "$(id -u)" -eq 0 ] && command -v apt-get >/dev/null 2>&1; then
  apt-get update -qq >/dev/null
  # shellcheck disable=SC2086
  DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing >/dev/null
else
  echo "Missing system packages. Run:  sudo apt-get install --no-install-recommends$missing" >&2
  exit 1
fi
