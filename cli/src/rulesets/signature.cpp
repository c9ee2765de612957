#include "rulesets/signature.h"

#include <openssl/bio.h>
#include <openssl/err.h>
#include <openssl/evp.h>
#include <openssl/pem.h>

#include <memory>

namespace cli {

namespace {

constexpr std::size_t signature_size = 64;

struct FreeBio {
  void operator()(BIO* bio) const { BIO_free(bio); }
};
struct FreeKey {
  void operator()(EVP_PKEY* key) const { EVP_PKEY_free(key); }
};
struct FreeContext {
  void operator()(EVP_MD_CTX* context) const { EVP_MD_CTX_free(context); }
};
using Key = std::unique_ptr<EVP_PKEY, FreeKey>;
using Context = std::unique_ptr<EVP_MD_CTX, FreeContext>;

const unsigned char* octets(std::string_view text) {
  return reinterpret_cast<const unsigned char*>(text.data());
}

/// Null when it is no such key, or one of another kind.
template <class Read>
Key key_of(std::string_view pem, Read read) {
  const std::unique_ptr<BIO, FreeBio> bio(BIO_new_mem_buf(pem.data(), static_cast<int>(pem.size())));
  Key key(bio ? read(bio.get(), nullptr, nullptr, nullptr) : nullptr);
  ERR_clear_error();
  if (key && EVP_PKEY_get_id(key.get()) != EVP_PKEY_ED25519) key.reset();
  return key;
}

engine::Error no_key(const std::string& name, const std::string& kind, std::string help) {
  return {"no_key", "`" + name + "` holds no Ed25519 " + kind + " key", {}, std::move(help)};
}

}  // namespace

engine::Result<std::string> sign(std::string_view bytes, std::string_view pem, const std::string& name) {
  const Key key = key_of(pem, PEM_read_bio_PrivateKey);
  if (!key) return no_key(name, "private", "`openssl genpkey -algorithm ed25519 -out private.pem` makes one");
  const Context context(EVP_MD_CTX_new());
  std::string signature(signature_size, '\0');
  std::size_t size = signature.size();
  const bool signed_it = context &&
                         EVP_DigestSignInit(context.get(), nullptr, nullptr, nullptr, key.get()) == 1 &&
                         EVP_DigestSign(context.get(), reinterpret_cast<unsigned char*>(signature.data()),
                                        &size, octets(bytes), bytes.size()) == 1 &&
                         size == signature_size;
  if (!signed_it) return engine::Error{"not_signed", "the key `" + name + "` cannot sign", {}, ""};
  return signature;
}

engine::Result<engine::Done> check_public_key(std::string_view pem, const std::string& name) {
  if (key_of(pem, PEM_read_bio_PUBKEY)) return engine::Done{};
  return no_key(name, "public",
                "`openssl pkey -in private.pem -pubout -out public.pem` takes it out of the private key");
}

SignatureFault verify_signature(std::string_view bytes, std::string_view signature, std::string_view pem) {
  if (signature.size() != signature_size) return SignatureFault::malformed;
  const Key key = key_of(pem, PEM_read_bio_PUBKEY);
  const Context context(EVP_MD_CTX_new());
  const bool right =
      key && context && EVP_DigestVerifyInit(context.get(), nullptr, nullptr, nullptr, key.get()) == 1 &&
      EVP_DigestVerify(context.get(), octets(signature), signature.size(), octets(bytes), bytes.size()) == 1;
  ERR_clear_error();
  return right ? SignatureFault::none : SignatureFault::wrong;
}

}  // namespace cli
