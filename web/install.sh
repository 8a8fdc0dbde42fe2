# Sourced by what builds or tests: installs what is missing and says so. Needs Debian (apt).

as_root() {
    if [ "$(id -u)" = 0 ]; then "$@"; else sudo "$@"; fi
}

# need_apt PACKAGE...: installs the Debian packages that are not there yet.
need_apt() {
    local missing=()
    local package
    for package in "$@"; do
        dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q "install ok installed" || missing+=("$package")
    done
    [ ${#missing[@]} -eq 0 ] && return 0
    echo "Installing Debian packages: ${missing[*]}"
    if ! as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -q --no-install-recommends "${missing[@]}" >"$cache/apt.log" 2>&1; then
        as_root apt-get update -q >>"$cache/apt.log" 2>&1 || true
        as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -q --no-install-recommends "${missing[@]}" >>"$cache/apt.log" 2>&1 || {
            tail -n 20 "$cache/apt.log"
            echo "Could not install: ${missing[*]} (see $cache/apt.log)"
            return 1
        }
    fi
}

# unpack_apt FOLDER PACKAGE...: Debian packages unpacked into a folder of the project and not installed, for programs
# that would start a service of the system's.
unpack_apt() {
    local folder=$1
    shift
    [ -d "$folder/usr" ] && return 0
    echo "Unpacking Debian packages: $*"
    mkdir -p "$folder"
    (
        cd "$folder" || exit
        apt-get download -q "$@" || { as_root apt-get update -q && apt-get download -q "$@"; } || exit
        for package in *.deb; do dpkg -x "$package" . || exit; done
    ) >"$cache/apt.log" 2>&1 || {
        tail -n 20 "$cache/apt.log"
        return 1
    }
}

# need_node [LEAST]: a Node.js of this version or later, 18 if none is named; Debian's own where there is none, npm's
# where that is too old (Debian 12 has 18).
need_node() {
    local least=${1:-18} folder=$root/.build/node package
    command -v node >/dev/null || need_apt nodejs || return
    command -v npm >/dev/null || need_apt npm || return
    node_is_from "$least" && return
    package=node-linux-$(node -p process.arch)
    if [ ! -x "$folder/node_modules/$package/bin/node" ]; then
        echo "Fetching Node.js 20 from npm, since $(node --version) is too old"
        npm install --prefix "$folder" --no-audit --no-fund --loglevel=error "$package@20.20.0" || return
    fi
    PATH=$folder/node_modules/$package/bin:$PATH
    node_is_from "$least"
}
node_is_from() { [ "$(node -p 'parseInt(process.versions.node)')" -ge "$1" ]; }

# need_npm FOLDER: the packages pinned in FOLDER/package-lock.json.
need_npm() {
    local stamp="$1/node_modules/.installed"
    if [ ! -f "$stamp" ] || ! cmp -s "$1/package-lock.json" "$stamp"; then
        echo "Installing npm packages for ${1#"$root"/}"
        (cd "$1" && npm ci --no-audit --no-fund --loglevel=error) || return 1
        cp "$1/package-lock.json" "$stamp"
    fi
}
