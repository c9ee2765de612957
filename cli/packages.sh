# The packages of Debian 12 that Dueward is built and tested with, and their installation.
# Read by cli/try and tests/run; not run by itself.

# g++ cmake ninja-build: compiler and build. ccache: the second build is quick. pkg-config: finds re2.
packages_to_build="g++ cmake ninja-build ccache pkg-config"
# libsqlitecpp-dev libsqlite3-dev: the ledger. libhowardhinnant-date-dev tzdata: calendar and time zones.
packages_to_build="$packages_to_build libsqlitecpp-dev libsqlite3-dev libhowardhinnant-date-dev tzdata"
# libspdlog-dev: the log of `serve`. libcli11-dev: the command line. libpugixml-dev: the XML of rulesets.
packages_to_build="$packages_to_build libspdlog-dev libcli11-dev libpugixml-dev"
# nlohmann-json3-dev libsimdjson-dev: JSON. libssl-dev: SHA-256. libre2-dev: regular expressions of FEEL.
packages_to_build="$packages_to_build nlohmann-json3-dev libsimdjson-dev libssl-dev libre2-dev"
# libkainjow-mustache-dev: templates of letters.
packages_to_build="$packages_to_build libkainjow-mustache-dev"

# catch2: the test framework. libintelrdfpmath-dev python3-dateutil python3-stdnum: other people's decimals,
# dates and check digits, which ours are compared with. sqlite3: falsifies ledgers. git: the tree's own checks.
packages_to_test="catch2 libintelrdfpmath-dev python3 python3-dateutil python3-stdnum sqlite3 git"
# python3-icalendar python3-vobject gnumeric: other readers of the calendars and tables that we write.
packages_to_test="$packages_to_test python3-icalendar python3-vobject gnumeric"

# clang libclang-rt-14-dev: libFuzzer, which only clang has.
packages_to_fuzz="clang-14 libclang-rt-14-dev"

# Installs what is missing of the packages named. Silent when all is there.
install_missing() {
  if ! command -v apt-get >/dev/null 2>&1 || ! command -v dpkg-query >/dev/null 2>&1; then
    if ! [ -f .build/CMakeCache.txt ]; then
      echo "This is no Debian system. What is needed, by the names of Debian 12:"
      echo "  $*"
      echo "Going on with what is installed."
    fi
    return 0
  fi
  missing=""
  for package in "$@"; do
    case "$(dpkg-query -W -f '${Status}' "$package" 2>/dev/null)" in
      "install ok installed") ;;
      *) missing="$missing $package" ;;
    esac
  done
  [ -n "$missing" ] || return 0

  as_root=""
  [ "$(id -u)" -eq 0 ] || as_root="sudo"
  echo "Installing with apt, to build and run Dueward:$missing"
  # shellcheck disable=SC2086  # a list of words
  $as_root apt-get update -qq &&
    $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -qq -y --no-install-recommends $missing >/dev/null || {
    echo "error: the packages could not be installed" >&2
    echo "  help: run \`apt-get install$missing\` as an administrator, then this script again" >&2
    return 1
  }
}

# Configures .build/ when that has not been done, with the CMake options given.
configure() {
  if [ -f .build/build.ninja ] && [ "$#" -eq 0 ]; then
    return 0
  fi
  cmake -S . -B .build -G Ninja -DCMAKE_BUILD_TYPE=Release "$@" >.build.log 2>&1 || {
    cat .build.log >&2
    rm -f .build.log
    return 1
  }
  rm -f .build.log
}
