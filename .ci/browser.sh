# Sourced by tests/run.sh after setup.sh: installs what the tests of pages, and of commands in zsh,
# need besides the lock, where it may: Debian packages as root, and axe-core with npm into .tools. Where something cannot
# be installed it says so, and those tests are skipped with a reason. It takes no time when all is
# there.

page_packages=(chromium chromium-driver zsh poppler-utils libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0)
axe=axe-core@4.14.1

missing_packages() {
    local package
    for package in "${page_packages[@]}"; do
        [ "$(dpkg-query --show --showformat='${db:Status-Status}' "$package" 2>/dev/null)" = installed ] ||
            echo "$package"
    done
}

install_packages() {
    command -v dpkg-query >/dev/null 2>&1 || {
        command -v chromium >/dev/null 2>&1 && command -v chromedriver >/dev/null 2>&1 ||
            echo "setup: this is no Debian; without chromium and chromedriver on PATH, the tests of pages are skipped" >&2
        return
    }
    local missing
    mapfile -t missing < <(missing_packages)
    [ ${#missing[@]} -eq 0 ] && return
    if [ "$(id -u)" -ne 0 ]; then
        echo "setup: not root, so tests that need these are skipped: ${missing[*]}" >&2
        return
    fi
    echo "setup: installing ${missing[*]}"
    export DEBIAN_FRONTEND=noninteractive
    timeout 600 apt-get install --yes --quiet=2 --no-install-recommends "${missing[@]}" >/dev/null 2>&1 || {
        timeout 120 apt-get update --quiet=2 >/dev/null 2>&1
        timeout 600 apt-get install --yes --quiet=2 --no-install-recommends "${missing[@]}" >/dev/null 2>&1
    } || echo "setup: apt-get could not install them; tests that need them are skipped" >&2
}

install_axe() {
    [ -f "$tools/node_modules/axe-core/axe.min.js" ] && return
    command -v npm >/dev/null 2>&1 || {
        echo "setup: no npm, so the tests with axe-core are skipped" >&2
        return
    }
    timeout 120 npm install --silent --no-audit --no-fund --no-save --prefix "$tools" "$axe" >/dev/null 2>&1 ||
        echo "setup: npm could not install $axe; the tests with it are skipped" >&2
}

install_packages
install_axe
