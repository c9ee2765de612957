#include <openssl/evp.h>

#include <cstdlib>
#include <memory>

#include "engine/canonical.h"

namespace engine {

namespace {

struct Release {
  void operator()(EVP_MD_CTX* context) const { EVP_MD_CTX_free(context); }
};

}  // namespace

Digest sha256(std::string_view bytes) {
  // Fetched once, and one context for each thread: looking the algorithm up by name, and making a context,
  // cost more than hashing a short record.
  static const EVP_MD* const algorithm = EVP_MD_fetch(nullptr, "SHA256", nullptr);
  thread_local const std::unique_ptr<EVP_MD_CTX, Release> context(EVP_MD_CTX_new());
  Digest digest{};
  unsigned int size = 0;
  const bool hashed = algorithm != nullptr && context != nullptr &&
                      EVP_DigestInit_ex2(context.get(), algorithm, nullptr) == 1 &&
                      EVP_DigestUpdate(context.get(), bytes.data(), bytes.size()) == 1 &&
                      EVP_DigestFinal_ex(context.get(), digest.data(), &size) == 1 && size == digest.size();
  // Only without memory, or with a libcrypto that has no SHA-256. A digest of zeros would be a lie in the
  // chain.
  if (!hashed) std::abort();
  return digest;
}

std::string hexadecimal(const Digest& digest) {
  constexpr char digits[] = "0123456789abcdef";
  std::string out;
  out.reserve(2 * digest.size());
  for (const std::uint8_t byte : digest) {
    out += digits[byte >> 4];
    out += digits[byte & 0x0F];
  }
  return out;
}

std::string digest_text(std::string_view bytes) {
  return "sha256:" + hexadecimal(sha256(bytes));
}

}  // namespace engine
