#include "app/make/encoder.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <csignal>
#include <system_error>
#include <utility>

#include "app/interrupt.hpp"
#include "app/io.hpp"

extern char** environ;  // NOLINT: named by POSIX

namespace pointwright::app {
namespace {

/// ffmpeg's stages between our pixels and the encoder. Colours are those of BT.709 in the narrow
/// range, which players expect of high definition (ITU-R BT.709).
std::string filters(Footage footage) {
  const std::string colours = "scale=out_color_matrix=bt709:out_range=tv";
  // Some encoders take the tags from the frames and not from the options.
  const std::string tags =
      ",setparams=color_primaries=bt709:color_trc=bt709:colorspace=bt709:range=tv";
  switch (footage) {
    case Footage::h264:
      return colours + ",format=yuv420p" + tags;
    case Footage::vp9:
      return "unpremultiply=inplace=1," + colours + ",format=yuva420p" + tags;
    case Footage::prores:
      return "unpremultiply=inplace=1," + colours + ",format=yuva444p10le" + tags;
    case Footage::gif:
      // A palette for each frame, so that memory does not grow with the clip.
      return "format=rgb24,split[a][b];[a]palettegen=stats_mode=single[p];[b][p]paletteuse=new=1:"
             "dither=none";
  }
  return {};
}

std::vector<std::string> codec(Footage footage) {
  switch (footage) {
    case Footage::h264:
      return {"-c:v", "libx264", "-preset", "veryfast", "-crf", "18", "-movflags", "+faststart"};
    case Footage::vp9:
      return {"-c:v",
              "libvpx-vp9",
              "-deadline",
              "realtime",
              "-cpu-used",
              "6",
              "-row-mt",
              "1",
              "-crf",
              "24",
              "-b:v",
              "0",
              "-auto-alt-ref",
              "0",
              "-metadata:s:v:0",
              "alpha_mode=1"};
    case Footage::prores:
      // A fixed quality instead of a search for the best one within a size: ten times as fast,
      // smaller, and still nearer to the original than 8 bits can tell (65 dB).
      return {"-c:v", "prores_ks",   "-profile:v", "4444", "-vendor",
              "apl0", "-alpha_bits", "16",         "-q:v", "4"};
    case Footage::gif:
      return {"-loop", "0"};
  }
  return {};
}

Failure not_installed(const std::string& program) {
  return failure(
      "missing-program",
      fmt::format("`{}`, which makes moving pictures, is not installed", program),
      fmt::format("install the package {}, or leave clips, overlays, prores and loops out "
                  "of --make",
                  program));
}

/// The last line that a program wrote.
std::string last_line(std::FILE* file) {
  if (std::fseek(file, 0, SEEK_SET) != 0) return {};
  std::string text;
  std::array<char, 4096> buffer{};
  while (const std::size_t got = std::fread(buffer.data(), 1, buffer.size(), file)) {
    text.append(buffer.data(), got);
  }
  while (!text.empty() && text.back() == '\n') text.pop_back();
  const std::size_t start = text.rfind('\n');
  return harmless(start == std::string::npos ? text : text.substr(start + 1));
}

/// The two ends of a pipe, of which a spawned program inherits neither unasked.
struct Pipe {
  int out = -1;
  int in = -1;
};

std::optional<Pipe> make_pipe() {
  std::array<int, 2> ends{};
  if (::pipe2(ends.data(), O_CLOEXEC) != 0) return std::nullopt;
  // Room for part of a frame, so that drawing goes on while the encoder reads.
  constexpr int roomy = 1 << 20;
  static_cast<void>(::fcntl(ends[1], F_SETPIPE_SZ, roomy));
  return Pipe{.out = ends[0], .in = ends[1]};
}

}  // namespace

std::string_view file_ending(Footage footage) {
  switch (footage) {
    case Footage::h264:
      return ".mp4";
    case Footage::vp9:
      return ".webm";
    case Footage::prores:
      return ".mov";
    case Footage::gif:
      break;
  }
  return ".gif";
}

bool has_alpha(Footage footage) {
  return footage == Footage::vp9 || footage == Footage::prores;
}

std::vector<std::string> encoder_arguments(const std::filesystem::path& file,
                                           const EncoderOptions& options) {
  std::vector<std::string> words{options.program,
                                 "-hide_banner",
                                 "-loglevel",
                                 "error",
                                 "-nostdin",
                                 "-f",
                                 "rawvideo",
                                 "-pix_fmt",
                                 "bgra",
                                 "-video_size",
                                 fmt::format("{}x{}", options.width, options.height),
                                 "-framerate",
                                 std::to_string(options.fps),
                                 "-i",
                                 "pipe:0",
                                 "-an",
                                 "-vf",
                                 filters(options.footage)};
  for (std::string& word : codec(options.footage)) words.push_back(std::move(word));
  if (options.footage != Footage::gif) {
    for (const char* word : {"-colorspace", "bt709", "-color_primaries", "bt709", "-color_trc",
                             "bt709", "-color_range", "tv"}) {
      words.emplace_back(word);
    }
  }
  // No times and versions in the file: the same frames give the same bytes.
  for (const char* word :
       {"-map_metadata", "-1", "-fflags", "+bitexact", "-flags:v", "+bitexact", "-y"}) {
    words.emplace_back(word);
  }
  words.push_back("file:" + file.string());
  return words;
}

Encoder::Encoder(std::filesystem::path file, std::string program, pid_t process, int pipe,
                 FileOwner complaints)
    : file_(std::move(file)),
      program_(std::move(program)),
      process_(process),
      pipe_(pipe),
      complaints_(std::move(complaints)) {}

Result<std::unique_ptr<Encoder>, Failure> Encoder::start(const std::filesystem::path& file,
                                                         const EncoderOptions& options) {
  const auto broken = [&](int error) {
    return failure("cannot-write",
                   fmt::format("`{}` cannot be started: {}", options.program,
                               std::generic_category().message(error)),
                   "close some programs, and try again");
  };
  FileOwner complaints(std::tmpfile());
  const auto pipe = make_pipe();
  if (!complaints || !pipe) return broken(errno);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_adddup2(&actions, pipe->out, STDIN_FILENO);
  posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  posix_spawn_file_actions_adddup2(&actions, fileno(complaints.get()), STDERR_FILENO);
  // Ctrl-C is ours to answer: the program gets a group of its own.
  posix_spawnattr_t attributes;
  posix_spawnattr_init(&attributes);
  posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETPGROUP);
  posix_spawnattr_setpgroup(&attributes, 0);
  std::vector<std::string> words = encoder_arguments(file, options);
  std::vector<char*> pointers;
  for (std::string& word : words) pointers.push_back(word.data());
  pointers.push_back(nullptr);
  pid_t process = 0;
  const int error = posix_spawnp(&process, options.program.c_str(), &actions, &attributes,
                                 pointers.data(), environ);
  posix_spawn_file_actions_destroy(&actions);
  posix_spawnattr_destroy(&attributes);
  ::close(pipe->out);
  if (error != 0) {
    ::close(pipe->in);
    return error == ENOENT ? not_installed(options.program) : broken(error);
  }
  return std::unique_ptr<Encoder>(
      new Encoder(file, options.program, process, pipe->in, std::move(complaints)));
}

Encoder::~Encoder() {
  if (done_) return;
  stop(true);
  std::error_code ignored;
  std::filesystem::remove(file_, ignored);
}

int Encoder::stop(bool at_once) {
  if (pipe_ >= 0) ::close(pipe_);
  pipe_ = -1;
  if (process_ <= 0) return -1;
  if (at_once) ::kill(process_, SIGKILL);
  int status = 0;
  while (::waitpid(process_, &status, 0) < 0 && errno == EINTR) {
    if (InterruptWatch::interrupted()) ::kill(process_, SIGKILL);
  }
  process_ = 0;
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

Failure Encoder::stopped_early() const {
  const std::string why = last_line(complaints_.get());
  const bool full = why.find("No space left") != std::string::npos;
  return failure(
      "cannot-encode",
      fmt::format("`{}` stopped while it wrote `{}`{}", program_, file_.filename().string(),
                  why.empty() ? "" : ": " + why),
      full ? "make room on the disk, or write to another one; nothing that was there has changed"
           : "see whether this program can write such files: it may lack an encoder");
}

std::optional<Failure> Encoder::add(std::span<const std::byte> pixels) {
  while (!pixels.empty()) {
    if (InterruptWatch::interrupted()) {
      return failure("interrupted", "the build was interrupted", "build again when you like");
    }
    const ssize_t written = ::write(pipe_, pixels.data(), pixels.size());
    if (written < 0) {
      if (errno == EINTR) continue;
      stop(false);
      return stopped_early();
    }
    pixels = pixels.subspan(static_cast<std::size_t>(written));
  }
  return std::nullopt;
}

std::optional<Failure> Encoder::finish() {
  // ffmpeg ends with 0 even if the last of the file could not be written; but then it has said so.
  if (stop(false) != 0 || !last_line(complaints_.get()).empty()) return stopped_early();
  done_ = true;
  return std::nullopt;
}

}  // namespace pointwright::app
