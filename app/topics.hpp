#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace pointwright::app {

/// Something that `explain` can explain. Everything in it is written where it belongs: a rule in
/// the rule book, a diagnostic beside its kind.
struct Topic {
  std::string_view id;
  std::string_view kind;   ///< "rule of play", "house rule", "diagnostic" …
  std::string_view group;  ///< the heading under which the list shows it
  std::string statement;
  std::string_view explanation{};
  std::string_view source{};
  std::string_view example{};  ///< a position line
  std::string_view attempt{};  ///< a play that the rule refuses in `example`
};

/// Every topic, in the order in which they are listed.
std::vector<Topic> topics();

}  // namespace pointwright::app
