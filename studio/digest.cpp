#include "studio/digest.hpp"

#include <openssl/evp.h>
#include <openssl/sha.h>

#include <array>

namespace pointwright {

namespace {

using Digest = std::array<unsigned char, SHA256_DIGEST_LENGTH>;

Digest digest_of(std::string_view bytes) {
  Digest digest{};
  unsigned int length = 0;
  EVP_Digest(bytes.data(), bytes.size(), digest.data(), &length, EVP_sha256(), nullptr);
  return digest;
}

}  // namespace

std::string sha256_bytes(std::string_view bytes) {
  const Digest digest = digest_of(bytes);
  return {digest.begin(), digest.end()};
}

std::string sha256_base64(std::string_view bytes) {
  return base64(sha256_bytes(bytes));
}

std::string base64(std::string_view bytes) {
  // Four characters for every three bytes, and the zero that EVP_EncodeBlock adds.
  std::string text(4 * ((bytes.size() + 2) / 3) + 1, '\0');
  const int written = EVP_EncodeBlock(reinterpret_cast<unsigned char*>(text.data()),
                                      reinterpret_cast<const unsigned char*>(bytes.data()),
                                      static_cast<int>(bytes.size()));
  text.resize(static_cast<std::size_t>(written));
  return text;
}

}  // namespace pointwright
