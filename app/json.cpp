#include "app/json.hpp"

namespace pointwright::app {
namespace {

Json to_json(const Fault& fault, const Failure& failure) {
  Json at = nullptr;
  if (!failure.text.empty()) {
    at = {{"line", failure.line}, {"begin", fault.where.begin}, {"end", fault.where.end}};
  }
  return {{"id", fault.id}, {"reason", fault.reason}, {"fix", fault.fix}, {"at", at}};
}

}  // namespace

std::string to_line(const Json& json) {
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

Json to_json(const Failure& failure) {
  Json result{{"error", to_json(failure.faults.front(), failure)}};
  if (failure.faults.size() > 1) {
    Json also = Json::array();
    for (std::size_t i = 1; i < failure.faults.size(); ++i) {
      also.push_back(to_json(failure.faults[i], failure));
    }
    result["error"]["also"] = std::move(also);
  }
  result["input"] = failure.text;
  return result;
}

}  // namespace pointwright::app
