#pragma once

#include <string>
#include <vector>

#include "studio/page.hpp"

namespace pointwright {

/// One file of a site.
struct SiteFile {
  std::string path;  ///< a plain name
  std::string contents;
};

/// Makes a course into files for a web server: index.html with the contents, a page for each
/// chapter, and the style, the scripts and the engine as files of their own. Their names hold their
/// digests, so that a browser may keep them for good; a page fetches the engine when a board that
/// needs it comes into view. The policy of each page admits its scripts by their digests and the
/// rest from its own server alone.
Result<std::vector<SiteFile>, PageFault> site_files(const Storyboard& storyboard,
                                                    const LiveParts& live);

}  // namespace pointwright
