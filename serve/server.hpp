#pragma once

#include <filesystem>
#include <memory>
#include <string>

#include "rules/result.hpp"
#include "serve/page_board.hpp"

namespace pointwright::serve {

/// Why no server could be started.
struct NoServer {
  bool port_is_taken = false;
  std::string reason;
};

/// Shows a page, and the files of a folder to which it leads, to browsers of this computer, from
/// threads of its own.
///
/// "/" is the page; "/.events" tells of each new version of it, as server-sent events named "page"
/// (WHATWG, HTML, section 9.2); other paths are files of the folder. Scripts run in the page alone.
class Server {
 public:
  /// Starts to listen on 127.0.0.1; port 0 lets the system choose one.
  static Result<std::unique_ptr<Server>, NoServer> start(const std::filesystem::path& folder,
                                                         int port);
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;
  /// Ends every connection and waits for the threads.
  virtual ~Server() = default;

  [[nodiscard]] virtual int port() const = 0;
  /// Shows a page from now on.
  virtual void show(ShownPage page) = 0;

 protected:
  Server() = default;
};

}  // namespace pointwright::serve
