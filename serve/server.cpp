#include "serve/server.hpp"

#include <fmt/format.h>
#include <httplib.h>
#include <sys/socket.h>

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <cstring>
#include <system_error>
#include <thread>

#include "serve/admission.hpp"
#include "serve/folder.hpp"

namespace pointwright::serve {
namespace {

// A page that waits for the next version holds a thread; the rest is for everything else.
constexpr std::size_t threads = 40;
constexpr int most_waiting = 32;
// How often a waiting page is looked after; then it is also found out whether it is still there.
constexpr std::chrono::milliseconds beat{1000};
constexpr std::string_view events_path = "/.events";  // no file has a name like this
constexpr std::size_t block = std::size_t{64} * 1024;

std::vector<std::string> all_of(const httplib::Request& request, const std::string& name) {
  std::vector<std::string> values;
  for (std::size_t i = 0; i < request.get_header_value_count(name); ++i)
    values.push_back(request.get_header_value(name, i));
  return values;
}

void say(httplib::Response& response, int status, const std::string& words) {
  response.status = status;
  response.set_content(words + "\n", "text/plain; charset=utf-8");
}

class HttpServer final : public Server {
 public:
  explicit HttpServer(std::filesystem::path folder) : folder_(std::move(folder)) {
    http_.new_task_queue = [] { return new httplib::ThreadPool(threads); };
    // The library's own choice would let two servers share a port.
    http_.set_socket_options([](int socket) {
      const int yes = 1;
      ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
    });
    http_.set_default_headers({{"Cache-Control", "no-store"},
                               {"Cross-Origin-Opener-Policy", "same-origin"},
                               {"Cross-Origin-Resource-Policy", "same-origin"},
                               {"Referrer-Policy", "no-referrer"},
                               {"X-Content-Type-Options", "nosniff"},
                               {"X-Frame-Options", "DENY"}});
    http_.set_payload_max_length(0);
    http_.set_keep_alive_max_count(1);  // a connection that is kept for later holds a thread, too
    http_.set_pre_routing_handler(
        [this](const httplib::Request& request, httplib::Response& response) {
          // Here and not by routes: those match paths by regular expressions, which cost a long
          // path its length in stack.
          const auto refused = refusal({.method = request.method,
                                        .hosts = all_of(request, "Host"),
                                        .origins = all_of(request, "Origin")},
                                       port_);
          if (refused) {
            say(response, refused->status, refused->reason);
            response.set_header("Content-Security-Policy", "default-src 'none'");
          } else if (request.path == "/") {
            page(response);
          } else if (request.path == events_path) {
            events(response);
          } else if (request.path == "/favicon.ico") {
            response.status = 204;  // browsers ask for one by themselves
          } else {
            file(request.path, response);
          }
          return httplib::Server::HandlerResponse::Handled;
        });
  }
  HttpServer(const HttpServer&) = delete;
  HttpServer& operator=(const HttpServer&) = delete;
  ~HttpServer() override {
    board_.close();
    http_.stop();
    if (thread_.joinable()) thread_.join();
  }

  std::optional<NoServer> listen(int port) {
    const std::string address = "127.0.0.1";
    errno = 0;
    port_ = port;
    if (port == 0) port_ = http_.bind_to_any_port(address);
    if (port_ < 0 || (port != 0 && !http_.bind_to_port(address, port))) {
      const int error = errno;
      return NoServer{error == EADDRINUSE, error == 0 ? std::string{"the system refused"}
                                                      : std::generic_category().message(error)};
    }
    thread_ = std::thread([this] { http_.listen_after_bind(); });
    // Stopping before it runs would be lost.
    while (!http_.is_running()) std::this_thread::yield();
    return std::nullopt;
  }

  [[nodiscard]] int port() const override { return port_; }
  void show(ShownPage page) override { board_.show(std::move(page)); }

 private:
  void page(httplib::Response& response) const {
    response.set_content(board_.page().html, "text/html; charset=utf-8");
    // What the page may do stands in the page itself; this cannot stand there.
    response.set_header("Content-Security-Policy", "frame-ancestors 'none'");
  }

  void events(httplib::Response& response) {
    if (waiting_.fetch_add(1) >= most_waiting) {
      --waiting_;
      say(response, 503, "Too many pages wait already; close some.");
      return;
    }
    // Given back when the last copy of the function that holds it is gone.
    const std::shared_ptr<void> seat(nullptr, [this](void*) { --waiting_; });
    response.set_chunked_content_provider(
        "text/event-stream",
        [this, seat, seen = std::string{}](std::size_t, httplib::DataSink& sink) mutable {
          const std::string version = board_.next(seen, beat);
          if (board_.closed()) {
            sink.done();
            return true;
          }
          const std::string text =
              version == seen ? ":\n\n" : fmt::format("event: page\ndata: {}\n\n", version);
          seen = version;
          return sink.write(text.data(), text.size());
        });
  }

  void file(const std::string& path, httplib::Response& response) const {
    response.set_header("Content-Security-Policy",
                        "default-src 'none'; style-src 'unsafe-inline'; img-src 'self' data:; "
                        "media-src 'self'; object-src 'self'; base-uri 'none'; form-action 'none'; "
                        "frame-ancestors 'none'");
    const auto names = names_along(path);
    const auto type = names && !names->empty() ? media_type(names->back()) : std::nullopt;
    const auto file = type ? open_inside(folder_, *names) : nullptr;
    if (!file) {
      say(response, 404, "There is no such file beside the lesson, or none of a kind to be shown.");
      return;
    }
    const std::string media(*type);
    if (file->size() == 0) {
      response.set_content("", media);
      return;
    }
    response.set_content_provider(
        file->size(), media,
        [file](std::size_t offset, std::size_t length, httplib::DataSink& sink) {
          const std::string bytes = file->read(offset, std::min(length, block));
          return !bytes.empty() && sink.write(bytes.data(), bytes.size());
        });
  }

  std::filesystem::path folder_;
  PageBoard board_;
  httplib::Server http_;
  std::thread thread_;
  std::atomic<int> waiting_ = 0;
  int port_ = 0;
};

}  // namespace

Result<std::unique_ptr<Server>, NoServer> Server::start(const std::filesystem::path& folder,
                                                        int port) {
  auto server = std::make_unique<HttpServer>(folder);
  if (auto failed = server->listen(port)) return std::move(*failed);
  return std::unique_ptr<Server>(std::move(server));
}

}  // namespace pointwright::serve
