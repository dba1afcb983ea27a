#include <nlohmann/json.hpp>

#include "storyboard/fields.hpp"
#include "storyboard/json.hpp"

namespace pointwright {
namespace {

using Json = nlohmann::ordered_json;

/// Visits the fields of each struct once and describes them.
class Describer {
 public:
  explicit Describer(Json& definitions) : definitions_(definitions) {}

  template <class T>
  void field(std::string_view name, const T& value, std::string_view description) {
    describe(name, value, description);
    object_["required"].push_back(name);
  }
  template <class T>
  void field(std::string_view name, const std::optional<T>& /*value*/,
             std::string_view description) {
    describe(name, T{}, description);
  }

  template <class T>
  Json object_of(const T& value) {
    object_ = {{"type", "object"}, {"properties", Json::object()}, {"required", Json::array()}};
    storyboard_form::fields(*this, value);
    return object_;
  }

 private:
  template <class T>
  void describe(std::string_view name, const T& value, std::string_view description) {
    Json schema = schema_of(value);
    schema["description"] = description;
    object_["properties"][std::string(name)] = std::move(schema);
  }

  Json schema_of(const std::string& /*value*/) { return {{"type", "string"}}; }
  Json schema_of(bool /*value*/) { return {{"type", "boolean"}}; }
  Json schema_of(int /*value*/) { return {{"type", "integer"}, {"minimum", 0}}; }
  Json schema_of(double /*value*/) { return {{"type", "number"}}; }
  Json schema_of(Place /*value*/) {
    return {{"type", "integer"}, {"minimum", 0}, {"maximum", static_cast<int>(bar_place)}};
  }
  template <class Enum>
    requires std::is_enum_v<Enum>
  Json schema_of(Enum /*value*/) {
    return {{"type", "string"}, {"enum", storyboard_form::EnumNames<Enum>::list}};
  }
  template <class T>
  Json schema_of(const std::vector<T>& /*values*/) {
    return {{"type", "array"}, {"items", schema_of(T{})}};
  }
  template <class T>
    requires(!storyboard_form::struct_name<T>.empty())
  Json schema_of(const T& value) {
    const std::string name(storyboard_form::struct_name<T>);
    if (!definitions_.contains(name)) {
      definitions_[name] = Json::object();  // claims the name: prose contains prose
      Json definition = Describer(definitions_).object_of(value);
      if constexpr (std::is_same_v<T, Part>) {
        definition["minProperties"] = 1;
        definition["maxProperties"] = 1;
      }
      definitions_[name] = std::move(definition);
    }
    return {{"$ref", "#/$defs/" + name}};
  }

  Json& definitions_;
  Json object_;
};

}  // namespace

std::string storyboard_schema() {
  Json definitions = Json::object();
  const Json whole = Describer(definitions).object_of(Storyboard{});
  Json schema = {{"$schema", "https://json-schema.org/draft/2020-12/schema"},
                 {"title", "Storyboard of a course"},
                 {"description",
                  "What the lesson compiler proved, in the order in which it is read. Positions "
                  "and plays are canonical text. Text is raw: whoever shows it escapes it."},
                 {"type", "object"}};
  schema["properties"]["version"] = {{"const", Storyboard::version}};
  schema["properties"].update(whole["properties"]);
  schema["required"] = whole["required"];
  schema["required"].push_back("version");
  schema["$defs"] = std::move(definitions);
  return schema.dump(2) + "\n";
}

}  // namespace pointwright
