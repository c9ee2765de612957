#include <openssl/evp.h>

#include <cstdlib>

#include "engine/canonical.h"

namespace engine {

Digest sha256(std::string_view bytes) {
  // Fetched once: looking the algorithm up by name costs more than hashing one record.
  static const EVP_MD* const algorithm = EVP_MD_fetch(nullptr, "SHA256", nullptr);
  Digest digest{};
  unsigned int size = 0;
  const bool hashed = algorithm != nullptr &&
                      EVP_Digest(bytes.data(), bytes.size(), digest.data(), &size, algorithm, nullptr) == 1 &&
                      size == digest.size();
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
