#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace pointwright {

/// Checks a value against the part of JSON Schema (draft 2020-12) that our schema uses: type,
/// properties, required, items, enum, const, minimum, maximum, minProperties, maxProperties and
/// $ref to $defs. Any other keyword in the schema is a fault, so that none is passed over in
/// silence. Returns a line for each fault.
inline void check_schema(const nlohmann::json& root, const nlohmann::json& schema,
                         const nlohmann::json& value, const std::string& where,
                         std::vector<std::string>& faults) {
  const auto fault = [&](const std::string& what) { faults.push_back(where + ": " + what); };
  for (const auto& [keyword, rule] : schema.items()) {
    if (keyword == "$ref") {
      const std::string name = rule.get<std::string>().substr(std::string("#/$defs/").size());
      check_schema(root, root.at("$defs").at(name), value, where, faults);
    } else if (keyword == "type") {
      const std::string type = rule.get<std::string>();
      const bool fits =
          (type == "object" && value.is_object()) || (type == "array" && value.is_array()) ||
          (type == "string" && value.is_string()) || (type == "boolean" && value.is_boolean()) ||
          (type == "integer" && value.is_number_integer()) ||
          (type == "number" && value.is_number());
      if (!fits) fault("is no " + type);
    } else if (keyword == "properties") {
      for (const auto& [name, property] : rule.items()) {
        if (value.is_object() && value.contains(name))
          check_schema(root, property, value.at(name), where + "/" + name, faults);
      }
    } else if (keyword == "required") {
      for (const auto& name : rule) {
        if (!value.contains(name.get<std::string>())) fault("lacks " + name.get<std::string>());
      }
    } else if (keyword == "items") {
      std::size_t i = 0;
      for (const auto& item : value)
        check_schema(root, rule, item, where + "/" + std::to_string(i++), faults);
    } else if (keyword == "enum") {
      if (std::find(rule.begin(), rule.end(), value) == rule.end()) fault("is none of the values");
    } else if (keyword == "const") {
      if (value != rule) fault("is not " + rule.dump());
    } else if (keyword == "minimum") {
      if (value < rule) fault("is too small");
    } else if (keyword == "maximum") {
      if (value > rule) fault("is too large");
    } else if (keyword == "minProperties") {
      if (value.size() < rule.get<std::size_t>()) fault("has too few members");
    } else if (keyword == "maxProperties") {
      if (value.size() > rule.get<std::size_t>()) fault("has too many members");
    } else if (keyword != "description" && keyword != "title" && keyword != "$schema" &&
               keyword != "$defs") {
      fault("the schema uses " + keyword + ", which this check does not know");
    }
  }
}

inline std::vector<std::string> schema_faults(const nlohmann::json& schema,
                                              const nlohmann::json& value) {
  std::vector<std::string> faults;
  check_schema(schema, schema, value, "", faults);
  return faults;
}

}  // namespace pointwright
