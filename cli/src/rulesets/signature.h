// Detached Ed25519 signatures over the bytes of a ruleset.dmn: 64 bytes, as `openssl pkeyutl -sign -rawin`
// writes them. Imports need none of their own: the signed bytes state their digests. Source: RFC 8032.

#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "engine/result.h"

namespace cli {

/// The signature of `bytes`. `pem` is the text of a private key file, `name` says whose it is in errors.
/// Fails with `no_key` when it is no Ed25519 private key, or when its passphrase is wrong.
engine::Result<std::string> sign(std::string_view bytes, std::string_view pem, const std::string& name);

/// Fails with `no_key` when `pem` is no Ed25519 public key.
engine::Result<engine::Done> check_public_key(std::string_view pem, const std::string& name);

enum class SignatureFault : std::uint8_t { none, malformed, wrong };

/// Whether `signature` is that of `bytes` by the owner of the public key `pem`, which check_public_key has
/// passed.
SignatureFault verify_signature(std::string_view bytes, std::string_view signature, std::string_view pem);

}  // namespace cli
