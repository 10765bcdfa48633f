# Sourced by run-demo and run-tests: installs what is missing from packages.tsv, for the purposes named.
# install_packages build run [test]
install_packages() {
  local wanted missing=() purpose package
  wanted=$(for purpose in "$@"; do awk -F '\t' -v p="$purpose" 'NR > 1 && $4 == p { print $1 }' third_party/packages.tsv; done)
  for package in $wanted; do
    dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q 'install ok installed' || missing+=("$package")
  done
  if [ ${#missing[@]} -eq 0 ]; then return 0; fi
  echo "Installing ${#missing[@]} Debian packages: ${missing[*]}"
  local as_root=()
  if [ "$(id -u)" -ne 0 ]; then as_root=(sudo); fi
  "${as_root[@]}" apt-get update -qq -o DPkg::Lock::Timeout=300
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends \
    -o DPkg::Lock::Timeout=300 "${missing[@]}" >/dev/null
}
