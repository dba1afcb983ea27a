#pragma once

#include <string>
#include <string_view>

namespace pointwright {

/// The SHA-256 digest of some bytes: 32 bytes.
std::string sha256_bytes(std::string_view bytes);

/// The SHA-256 digest of some bytes in base64, as a content security policy names an inline script
/// or style (W3C, Content Security Policy Level 3, section 2.3.1).
std::string sha256_base64(std::string_view bytes);

/// Bytes in base64 (RFC 4648, section 4).
std::string base64(std::string_view bytes);

}  // namespace pointwright
