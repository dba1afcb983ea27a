#pragma once

#include <filesystem>
#include <optional>

#include "app/failure.hpp"
#include "app/make/encoder.hpp"
#include "film/shots.hpp"
#include "press/frames.hpp"

namespace pointwright::app {

/// The frames that a shot has.
long frame_count(const film::Shot& shot, int fps);

/// Writes a shot as a moving picture. The sizes of both options have to agree.
std::optional<Failure> write_clip(const film::Shot& shot, const std::filesystem::path& file,
                                  const press::FrameOptions& frames, const EncoderOptions& encoder);

}  // namespace pointwright::app
