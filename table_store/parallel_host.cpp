#include "table_store/parallel_host.hpp"

#include <condition_variable>
#include <cstddef>
#include <memory>
#include <mutex>
#include <thread>
#include <vector>

namespace pointwright {
namespace {

using Work = std::function<void(std::size_t begin, std::size_t end)>;

/// Threads that wait for work. Each job is cut into pieces that are handed out one by one, so that
/// a thread which the machine holds up does not hold up the job.
class Crew {
 public:
  explicit Crew(unsigned threads) {
    for (unsigned i = 1; i < threads; ++i) {
      threads_.emplace_back([this](const std::stop_token& stop) { serve(stop); });
    }
  }
  ~Crew() {
    for (std::jthread& thread : threads_) thread.request_stop();
    work_ready_.notify_all();
  }
  Crew(const Crew&) = delete;
  Crew& operator=(const Crew&) = delete;

  void split(std::size_t count, const Work& work) {
    if (threads_.empty() || count < 2) {
      if (count > 0) work(0, count);
      return;
    }
    std::unique_lock lock(mutex_);
    work_ = &work;
    count_ = count;
    next_ = 0;
    const std::size_t pieces = 4 * (threads_.size() + 1);
    step_ = (count + pieces - 1) / pieces;
    work_ready_.notify_all();
    take_pieces(lock);
    all_done_.wait(lock, [this] { return busy_ == 0; });
    work_ = nullptr;
  }

 private:
  void serve(const std::stop_token& stop) {
    std::unique_lock lock(mutex_);
    while (work_ready_.wait(lock, stop, [this] { return work_ != nullptr && next_ < count_; })) {
      take_pieces(lock);
      if (busy_ == 0) all_done_.notify_one();
    }
  }

  void take_pieces(std::unique_lock<std::mutex>& lock) {
    ++busy_;
    while (next_ < count_) {
      const std::size_t begin = next_;
      const std::size_t end = begin + step_ < count_ ? begin + step_ : count_;
      next_ = end;
      const Work* work = work_;
      lock.unlock();
      (*work)(begin, end);
      lock.lock();
    }
    --busy_;
  }

  std::mutex mutex_;
  std::condition_variable_any work_ready_;
  std::condition_variable all_done_;
  const Work* work_ = nullptr;
  std::size_t count_ = 0;
  std::size_t next_ = 0;
  std::size_t step_ = 1;
  std::size_t busy_ = 0;
  std::vector<std::jthread> threads_;  ///< last: they use everything above
};

}  // namespace

BuildHost parallel_host(unsigned threads, std::function<bool(double done)> progress) {
  BuildHost host;
  host.progress = std::move(progress);
  host.in_parallel = [crew = std::make_shared<Crew>(threads)](std::size_t count, const Work& work) {
    crew->split(count, work);
  };
  return host;
}

}  // namespace pointwright
