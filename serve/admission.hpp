#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace pointwright::serve {

/// What is looked at before a request is answered.
struct Asked {
  std::string_view method;
  std::vector<std::string> hosts;    ///< every Host header
  std::vector<std::string> origins;  ///< every Origin header
};

/// An answer that refuses.
struct Refusal {
  int status = 0;  ///< RFC 9110, section 15
  std::string reason;
};

/// Why a request is not answered, or nothing. Only GET and HEAD are; only under a name of this
/// computer and with this port, so that a page from elsewhere cannot read the answer by giving its
/// own name this computer's address; and only for pages that came from here.
std::optional<Refusal> refusal(const Asked& asked, int port);

/// The names along a decoded path: "/a/b.pdf" gives "a", "b.pdf". Nothing where a name is empty or
/// begins with a dot, which leaves out `.` and `..`, or holds a backslash or a control character.
std::optional<std::vector<std::string>> names_along(std::string_view path);

}  // namespace pointwright::serve
