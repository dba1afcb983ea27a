#include "serve/page_board.hpp"

#include <utility>

namespace pointwright::serve {

void PageBoard::show(ShownPage page) {
  const std::lock_guard lock(mutex_);
  page_ = std::move(page);
  changed_.notify_all();
}

void PageBoard::close() {
  const std::lock_guard lock(mutex_);
  closed_ = true;
  changed_.notify_all();
}

ShownPage PageBoard::page() const {
  const std::lock_guard lock(mutex_);
  return page_;
}

bool PageBoard::closed() const {
  const std::lock_guard lock(mutex_);
  return closed_;
}

std::string PageBoard::next(const std::string& seen, std::chrono::milliseconds time) const {
  std::unique_lock lock(mutex_);
  changed_.wait_for(lock, time, [&] { return closed_ || page_.version != seen; });
  return page_.version;
}

}  // namespace pointwright::serve
