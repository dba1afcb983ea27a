#include "studio/page_head.hpp"

#include <fmt/format.h>

#include "studio/assets.hpp"
#include "studio/digest.hpp"
#include "studio/page_parts.hpp"

namespace pointwright {

namespace {

// What the page may do: run its own style and scripts, and, if it is live, the engine in a worker.
std::string policy(const PageHead& head, const LiveParts* live) {
  std::string scripts;
  for (const std::string_view script : {head.early_script, head.chapter_script}) {
    if (!script.empty()) {
      scripts += fmt::format(" 'sha256-{}'", sha256_base64(script));
    }
  }
  for (const std::string_view script : head.scripts) {
    scripts += fmt::format(" 'sha256-{}'", sha256_base64(script));
  }
  std::string more;
  if (live != nullptr) {
    scripts += fmt::format(" 'sha256-{}' 'wasm-unsafe-eval'", sha256_base64(live->script));
    more = head.files == nullptr ? "worker-src blob:; img-src blob:; "
                                 : "worker-src 'self'; connect-src 'self'; img-src blob:; ";
  }
  if (!head.preview.empty()) {
    more += "connect-src 'self'; ";
  }
  return fmt::format(
      "default-src 'none'; style-src {}; script-src{}; {}base-uri 'none'; form-action "
      "'none'",
      head.files == nullptr ? fmt::format("'sha256-{}'", sha256_base64(head.style)) : "'self'",
      scripts, more);
}

/// A script of a file, which the policy admits by its digest (W3C, Content Security Policy Level 3,
/// section 8.4).
std::string file_script(std::string_view name, std::string_view contents) {
  return fmt::format("<script src=\"{}\" integrity=\"sha256-{}\"></script>\n", name,
                     sha256_base64(contents));
}

void write_meta(std::string& out, std::string_view name, std::string_view content) {
  if (!content.empty()) {
    out += fmt::format("<meta name=\"{}\" content=\"{}\">\n", name, escaped(content));
  }
}

}  // namespace

std::string style_sheet(std::string_view page, const LiveParts* live) {
  std::string style = themes_css();
  style += drawing_css();
  style += assets::base_css;
  style += page;
  if (live != nullptr) {
    style += live->style;
  }
  return style;
}

void write_head(std::string& out, const PageHead& head, const LiveParts* live) {
  out += fmt::format("<!doctype html>\n<html lang=\"{}\"{}{}>\n<head>\n<meta charset=\"utf-8\">\n",
                     escaped(head.language),
                     head.course.empty() ? "" : fmt::format(" data-course=\"{}\"", head.course),
                     head.preview.empty() ? "" : fmt::format(" data-preview=\"{}\"", head.preview));
  out += fmt::format("<meta http-equiv=\"Content-Security-Policy\" content=\"{}\">\n",
                     policy(head, live));
  write_meta(out, "viewport", "width=device-width, initial-scale=1");
  write_meta(out, "referrer", "no-referrer");
  write_meta(out, "generator", "Pointwright");
  write_meta(out, "author", head.author);
  write_meta(out, "description", head.summary);
  out += fmt::format("<title>{}</title>\n", escaped(head.title));
  if (!head.early_script.empty()) {
    out += fmt::format("<script>{}</script>\n", head.early_script);
  }
  if (head.files == nullptr) {
    out += fmt::format("<style>{}</style>\n</head>\n", head.style);
  } else {
    out += fmt::format("<link rel=\"stylesheet\" href=\"{}\" integrity=\"sha256-{}\">\n</head>\n",
                       head.files->style, sha256_base64(head.style));
  }
}

void write_script(std::string& out, const PageHead& head, std::size_t number) {
  const std::string_view script = head.scripts[number];
  out += head.files == nullptr ? fmt::format("<script>{}</script>\n", script)
                               : file_script(head.files->scripts[number], script);
}

void write_live(std::string& out, const LiveParts* live, const PageFiles* files) {
  if (live == nullptr) {
    return;
  }
  if (files != nullptr) {
    out += fmt::format(
        "<script type=\"text/plain\" id=\"pw-engine\" data-file=\"{}\" "
        "data-digest=\"sha256-{}\"></script>\n<script type=\"text/plain\" id=\"pw-worker\" "
        "data-file=\"{}\"></script>\n",
        files->engine, sha256_base64(live->engine), files->worker);
    out += file_script(files->scripts.back(), live->script);
    return;
  }
  out +=
      "<script type=\"text/plain\" id=\"pw-engine\">" + base64(live->packed_engine) + "</script>\n";
  out +=
      fmt::format("<script type=\"text/plain\" id=\"pw-worker\">{}</script>\n<script>{}</script>\n",
                  live->worker, live->script);
}

std::string program_html(std::string_view title, const LiveParts& live) {
  PageHead head;
  head.title = title;
  head.style = style_sheet("", &live);
  std::string out;
  write_head(out, head, &live);
  out += fmt::format(
      "<body>\n<svg class=\"shared\" width=\"0\" height=\"0\" aria-hidden=\"true\" "
      "focusable=\"false\"><defs></defs></svg>\n<header class=\"masthead\">\n<h1>{}</h1>\n"
      "</header>\n<main id=\"main\">\n<noscript><p>This page plays backgammon with rules and dice "
      "of its own, and needs scripts to do so. Nothing is fetched or sent.</p></noscript>\n"
      "</main>\n",
      escaped(title));
  write_live(out, &live);
  out += "</body>\n</html>\n";
  return out;
}

}  // namespace pointwright
