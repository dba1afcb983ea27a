#include "app/reference/reference.hpp"
#include "tools/docs/pages.hpp"

namespace pointwright::docs {

std::string command_line_page() {
  return app::reference_page(app::Program{});
}

}  // namespace pointwright::docs
