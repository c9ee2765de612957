#include <catch2/catch.hpp>
#include <fstream>
#include <random>

#include "engine/canonical.h"
#include "support/shell.h"
#include "support/temporary_folder.h"

namespace engine {
namespace {

// Source: NIST, "SHA-256 example values" to FIPS 180-4, and FIPS 180-2, appendix B (one, two and a million
// bytes of message). Each is also what sha256sum prints: printf abc | sha256sum
TEST_CASE("the digest is that of the standard's examples", "[canonical]") {
  struct Row {
    const char* because;
    std::string bytes;
    const char* digest;
  };
  const auto row = GENERATE(values<Row>({
      {"no bytes", "", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"},
      {"one block", "abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"},
      {"two blocks", "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
       "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"},
      {"many blocks", std::string(1'000'000, 'a'),
       "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0"},
  }));
  INFO(row.because);
  CHECK(hexadecimal(sha256(row.bytes)) == row.digest);
  CHECK(digest_text(row.bytes) == std::string("sha256:") + row.digest);
}

// Outside check: sha256sum of GNU coreutils.
TEST_CASE("the digest of any bytes is what sha256sum prints", "[canonical]") {
  const support::TemporaryFolder folder;
  std::mt19937 random(180);
  for (std::size_t size : {1U, 55U, 56U, 63U, 64U, 65U, 1000U, 100'000U}) {
    std::string bytes(size, '\0');
    for (char& c : bytes) c = static_cast<char>(random());
    const std::string path = folder.file(std::to_string(size));
    std::ofstream(path, std::ios::binary) << bytes;
    const support::ShellResult printed = support::shell("sha256sum < '" + path + "' 2>&1");
    if (printed.exit_code != 0) {
      WARN("skipped: sha256sum cannot be run here");
      return;
    }
    INFO(size << " random bytes");
    CHECK(hexadecimal(sha256(bytes)) == printed.printed.substr(0, 64));
  }
}

}  // namespace
}  // namespace engine
