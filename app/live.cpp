#include "app/live.hpp"

#include <string>

#include "web/assets.hpp"

namespace pointwright::app {
namespace {

const std::string& program_style() {
  static const std::string style =
      std::string(web::assets::live_css()) + std::string(web::assets::table_css());
  return style;
}

}  // namespace

LiveParts course_parts() {
  return {web::assets::engine_wasm(), web::assets::engine_wasm_gz(), web::assets::worker_js(),
          web::assets::reader_js(), web::assets::live_css()};
}

LiveParts table_parts() {
  return {web::assets::engine_wasm(), web::assets::engine_wasm_gz(), web::assets::worker_js(),
          web::assets::table_js(), program_style()};
}

LiveParts bench_parts() {
  return {web::assets::engine_wasm(), web::assets::engine_wasm_gz(), web::assets::worker_js(),
          web::assets::bench_js(), program_style()};
}

}  // namespace pointwright::app
