#include "app/interrupt.hpp"

namespace pointwright::app {
namespace {

volatile std::sig_atomic_t flag = 0;

extern "C" void note_interrupt(int number) {
  if (number != SIGPIPE && number != SIGXFSZ) flag = 1;
}

}  // namespace

InterruptWatch::InterruptWatch() {
  flag = 0;
  struct sigaction action{};
  action.sa_handler = note_interrupt;
  sigemptyset(&action.sa_mask);
  for (std::size_t i = 0; i < signals_.size(); ++i) {
    sigaction(signals_[i], &action, &before_[i]);
  }
}

InterruptWatch::~InterruptWatch() {
  for (std::size_t i = 0; i < signals_.size(); ++i) {
    sigaction(signals_[i], &before_[i], nullptr);
  }
  flag = 0;
}

bool InterruptWatch::interrupted() {
  return flag != 0;
}

}  // namespace pointwright::app
