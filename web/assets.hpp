#pragma once

#include <string_view>

/// The files that live pages carry, built into the program.
namespace pointwright::web::assets {

std::string_view engine_wasm();     ///< the engine, in binary
std::string_view engine_wasm_gz();  ///< the same, compressed (gzip)
std::string_view worker_js();       ///< runs the engine beside the page
std::string_view reader_js();       ///< makes the page of a course live
std::string_view table_js();        ///< the table
std::string_view bench_js();        ///< the bench
std::string_view preview_css();     ///< what is wrong with a lesson, in its page
std::string_view preview_js();      ///< loads a page again while its lesson is written
std::string_view live_css();        ///< boards that can be played on
std::string_view table_css();       ///< the table and the bench

}  // namespace pointwright::web::assets
