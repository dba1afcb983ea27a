#pragma once

#include <sys/types.h>

#include <cstddef>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "app/failure.hpp"
#include "rules/result.hpp"

/// Moving pictures through ffmpeg, which runs as a program of its own.
namespace pointwright::app {

/// A form of moving picture.
enum class Footage {
  h264,    ///< MP4 for the web
  vp9,     ///< WebM with alpha, to lay over other pictures
  prores,  ///< ProRes 4444 with alpha in a MOV, for editors
  gif,     ///< a loop for chats
};

std::string_view file_ending(Footage footage);  ///< ".mp4"
bool has_alpha(Footage footage);

struct EncoderOptions {
  Footage footage = Footage::h264;
  int width = 1920;  ///< both even
  int height = 1080;
  int fps = 30;
  std::string program = "ffmpeg";  ///< looked for on the path
};

/// Takes frames and writes a file. A file that was not finished is taken away.
class Encoder {
 public:
  /// Starts the program. Fails when it is not there.
  static Result<std::unique_ptr<Encoder>, Failure> start(const std::filesystem::path& file,
                                                         const EncoderOptions& options);
  Encoder(const Encoder&) = delete;
  Encoder& operator=(const Encoder&) = delete;
  ~Encoder();

  /// Adds a frame: width * height pixels of blue, green, red, alpha, multiplied by alpha. Blocks
  /// while the program is busy. Fails when it has stopped, or when somebody interrupts.
  std::optional<Failure> add(std::span<const std::byte> pixels);

  /// Waits until the file is written.
  std::optional<Failure> finish();

 private:
  struct CloseFile {
    void operator()(std::FILE* file) const { static_cast<void>(std::fclose(file)); }
  };
  using FileOwner = std::unique_ptr<std::FILE, CloseFile>;

  Encoder(std::filesystem::path file, std::string program, pid_t process, int pipe,
          FileOwner complaints);
  /// Ends the program and returns its exit status, or -1 if it had to be stopped.
  int stop(bool at_once);
  [[nodiscard]] Failure stopped_early() const;

  std::filesystem::path file_;
  std::string program_;
  pid_t process_;
  int pipe_;
  FileOwner complaints_;  ///< what the program wrote to its standard error
  bool done_ = false;
};

/// The arguments that ffmpeg is given, its own name first.
std::vector<std::string> encoder_arguments(const std::filesystem::path& file,
                                           const EncoderOptions& options);

}  // namespace pointwright::app
