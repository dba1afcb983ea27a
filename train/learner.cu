// Learns nets on a graphics card from the lessons that another program plays (lessons_main.cpp).
// Built apart from the rest: nvcc -O3 -std=c++20 -arch=sm_90 --expt-relaxed-constexpr -I. train/learner.cu -lcublas
// See docs/training.md.

#include <CLI/CLI.hpp>
#include <chrono>
#include <cstring>
#include <memory>
#include <mutex>
#include <thread>

#include "train/net_on_card.cuh"

namespace pointwright::train {
namespace {

/// As judge::name().
const char* phase_name(int phase) {
  constexpr std::array<const char*, phases> names{"open", "blockade", "bear-in", "race"};
  return names[static_cast<std::size_t>(phase)];
}

// ---------------------------------------------------------------------------------- lessons

/// The latest lessons of each phase, on the card.
class Rings {
 public:
  Rings() {
    CHECK(cudaStreamCreateWithFlags(&stream_, cudaStreamNonBlocking));
    for (Ring& ring : rings_) {
      CHECK(cudaMalloc(&ring.data, most_kept * sizeof(LessonRecord)));
      CHECK(cudaMallocHost(&ring.waiting, chunk * sizeof(LessonRecord)));
    }
  }

  /// Called by the one thread that reads.
  void add(const LessonRecord& record) {
    Ring& ring = rings_[record.phase % phases];
    ring.waiting[ring.waiting_count++] = record;
    if (ring.waiting_count < chunk) return;
    // Nothing is drawn from this place meanwhile: see source().
    CHECK(cudaMemcpyAsync(ring.data + ring.next, ring.waiting, chunk * sizeof(LessonRecord),
                          cudaMemcpyHostToDevice, stream_));
    CHECK(cudaStreamSynchronize(stream_));
    ring.waiting_count = 0;
    const std::lock_guard lock(mutex_);
    ring.next = (ring.next + chunk) % most_kept;
    ring.arrived += chunk;
  }

  std::size_t arrived(int phase) const {
    const std::lock_guard lock(mutex_);
    return rings_[phase].arrived;
  }

  /// The lessons of the net's phases, in the proportion in which they came. Of a full ring the eight
  /// oldest chunks are left out, because the next ones are being written there.
  Source source(const NetInTraining& net) const {
    const std::lock_guard lock(mutex_);
    Source source{};
    double sum = 0;
    for (int p = 0; p < phases; ++p) sum += net.studies(p) ? double(rings_[p].arrived) : 0.0;
    double so_far = 0;
    for (int p = 0; p < phases; ++p) {
      const Ring& ring = rings_[p];
      source.ring[p] = ring.data;
      const bool full = ring.arrived >= most_kept;
      source.first[p] = static_cast<unsigned>(full ? (ring.next + 8 * chunk) % most_kept : 0);
      source.size[p] = static_cast<unsigned>(
          std::max<std::size_t>(1, full ? most_kept - 8 * chunk : ring.arrived));
      if (net.studies(p)) so_far += double(ring.arrived);
      source.up_to[p] = static_cast<float>(so_far / std::max(1.0, sum));
      // A phase beyond the last that is studied is never drawn.
      if (so_far >= sum) source.up_to[p] = 2;
    }
    return source;
  }

 private:
  struct Ring {
    LessonRecord* data = nullptr;
    LessonRecord* waiting = nullptr;
    int waiting_count = 0;
    std::size_t next = 0;
    std::size_t arrived = 0;
  };
  std::array<Ring, phases> rings_;
  cudaStream_t stream_ = nullptr;
  mutable std::mutex mutex_;
};

// ---------------------------------------------------------------------------------- training

struct Options {
  std::string games;           // the command that writes lessons
  std::string folder = ".";
  std::string from;            // folder of weights to begin with
  double seconds = 60;
  double publish_after = 60;   // the players take the first learner's nets from then on
  double publish_every = 2;
  float rate = 0.001f;
  float last_rate = 0.00001f;
  double hold = 0.5;           // share of the time before the rate falls
  float keep = 0.9995f;
  std::vector<std::string> learners;  // NAME:WIDTH:phases or NAME:WIDTH:one
};

void write_raw(const std::string& path, const NetInTraining& net) {
  const std::vector<float> w = net.running();
  const int hidden = net.shape().hidden;
  std::FILE* file = std::fopen(path.c_str(), "wb");
  if (file == nullptr || std::fwrite(&hidden, sizeof hidden, 1, file) != 1 ||
      std::fwrite(w.data(), sizeof(float), w.size(), file) != w.size() || std::fclose(file) != 0) {
    std::fprintf(stderr, "cannot write %s\n", path.c_str());
    std::exit(1);
  }
}

bool read_raw(const std::string& path, NetInTraining& net) {
  std::FILE* file = std::fopen(path.c_str(), "rb");
  if (file == nullptr) return false;
  int hidden = 0;
  std::vector<float> w(net.shape().count());
  const bool good = std::fread(&hidden, sizeof hidden, 1, file) == 1 &&
                    hidden == net.shape().hidden &&
                    std::fread(w.data(), sizeof(float), w.size(), file) == w.size();
  std::fclose(file);
  if (good) net.set(w);
  return good;
}

/// Several nets that together value every position.
struct Learner {
  std::string name;
  std::vector<std::unique_ptr<NetInTraining>> nets;

  const NetInTraining& net_of(int phase) const {
    for (const auto& net : nets) {
      if (net->studies(phase)) return *net;
    }
    std::abort();
  }
  void write(const std::string& stem) const {
    for (int p = 0; p < phases; ++p) write_raw(stem + phase_name(p) + ".raw", net_of(p));
  }
};

Learner learner_of(const std::string& text, unsigned seed) {
  const auto one = text.find(':');
  const auto two = text.find(':', one + 1);
  Learner learner{text.substr(0, one), {}};
  const int width = std::atoi(text.substr(one + 1, two - one - 1).c_str());
  const std::string how = text.substr(two + 1);
  const auto add = [&](const std::string& name, int w, std::array<bool, phases> studied) {
    learner.nets.push_back(std::make_unique<NetInTraining>(learner.name + "-" + name, w, studied,
                                                           seed++));
  };
  if (how == "phases") {
    for (int p = 0; p < 3; ++p) {
      std::array<bool, phases> studied{};
      studied[p] = true;
      add(phase_name(p), width, studied);
    }
  } else {
    add("contact", width, {true, true, true, false});
  }
  add("race", 128, {false, false, false, true});
  return learner;
}

void publish(const Options& options, const Learner& learner, int generation) {
  learner.write(options.folder + "/" + std::to_string(generation) + "-");
  const std::string path = options.folder + "/generation";
  std::FILE* file = std::fopen((path + ".new").c_str(), "w");
  std::fprintf(file, "%d\n", generation);
  std::fclose(file);
  std::rename((path + ".new").c_str(), path.c_str());
  for (int p = 0; p < phases && generation > 3; ++p)
    std::remove((options.folder + "/" + std::to_string(generation - 3) + "-" + phase_name(p) +
                 ".raw").c_str());
}

int train(const Options& options) {
  Rings rings;
  std::FILE* games = popen(options.games.c_str(), "r");
  std::thread([&rings, games] {
    std::vector<LessonRecord> records(4096);
    for (;;) {
      const std::size_t count = std::fread(records.data(), sizeof(LessonRecord), records.size(), games);
      for (std::size_t i = 0; i < count; ++i) rings.add(records[i]);
      if (count < records.size()) return;
    }
  }).detach();

  std::vector<Learner> learners;
  int widest = 128;
  for (const std::string& text : options.learners) {
    learners.push_back(learner_of(text, 1 + 100 * static_cast<unsigned>(learners.size())));
    for (const auto& net : learners.back().nets) {
      widest = std::max(widest, net->shape().hidden);
      if (!options.from.empty())
        std::fprintf(stderr, "%s: %s\n", net->name().c_str(),
                     read_raw(options.from + "/" + net->name() + ".raw", *net) ? "goes on" : "new");
    }
  }
  Workshop shop(widest);
  for (int p = 0; p < phases; ++p) {
    while (rings.arrived(p) < 4 * chunk) std::this_thread::sleep_for(std::chrono::milliseconds(50));
  }
  const auto start = std::chrono::steady_clock::now();
  double next_report = 20;
  double next_publishing = options.publish_after;
  int generation = 0;
  unsigned long long seed = 1;
  double seconds = 0;
  long rounds = 0;
  while (seconds < options.seconds) {
    const double part = seconds / options.seconds;
    float rate = options.rate;
    if (part > options.hold)
      rate *= std::pow(options.last_rate / options.rate,
                       static_cast<float>((part - options.hold) / (1 - options.hold)));
    rate *= std::min(1.0f, static_cast<float>(++rounds) / 500.0f);
    for (Learner& learner : learners) {
      for (const auto& net : learner.nets) {
        // Races are plain, and a learner has fewer of them to study.
        if (net->studies(3) && rounds % 2 == 0) continue;
        draw<<<batch, threads_to_draw>>>(rings.source(*net), seed++, shop.x.data, shop.target.data);
        net->find_slope(shop);
        net->step(rate, options.keep);
      }
    }
    if (rounds % 8 == 0) CHECK(cudaDeviceSynchronize());
    seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    if (seconds >= next_publishing) {
      next_publishing += options.publish_every;
      publish(options, learners.front(), ++generation);
    }
    if (seconds >= next_report || seconds >= options.seconds) {
      next_report += 20;
      std::printf("%6.1f s  rate %.6f  lessons", seconds, rate);
      for (int p = 0; p < phases; ++p) std::printf(" %.1fM", 1e-6 * double(rings.arrived(p)));
      std::printf(" ");
      for (Learner& learner : learners) {
        for (const auto& net : learner.nets)
          std::printf("  %s %ld %.5f", net->name().c_str(), net->steps(), net->error());
        for (const auto& net : learner.nets)
          write_raw(options.folder + "/" + net->name() + ".raw", *net);
      }
      std::printf("\n");
      std::fflush(stdout);
    }
  }
  CHECK(cudaDeviceSynchronize());
  std::fflush(stdout);
  std::_Exit(0);  // the players stop when nobody reads
}

// ---------------------------------------------------------------------------------- self-test

/// Compares what the card makes of a lesson with judge::units() and judge::measure_units.
bool draws_what_nets_see(Workshop& shop) {
  std::mt19937 random(2);
  LessonRecord record{};
  for (auto& camp : record.camps)
    for (auto& count : camp) count = static_cast<std::uint8_t>(random() % 16);
  for (auto& count : record.counts) count = static_cast<std::int16_t>(random() % 300);
  LessonRecord* on_card = nullptr;
  CHECK(cudaMalloc(&on_card, sizeof record));
  CHECK(cudaMemcpy(on_card, &record, sizeof record, cudaMemcpyHostToDevice));
  draw<<<1, threads_to_draw>>>(Source{{on_card}, {0}, {1}, {1}}, 1, shop.x.data, shop.target.data);
  std::vector<float> got(inputs);
  CHECK(cudaMemcpy(got.data(), shop.x.data, inputs * sizeof(float), cudaMemcpyDeviceToHost));
  CHECK(cudaFree(on_card));
  std::vector<float> want;
  for (const auto& camp : record.camps)
    for (int place = 0; place < judge::places_per_side; ++place)
      for (const float unit : judge::units(place, camp[place])) want.push_back(unit);
  for (int m = 0; m < judge::measure_count; ++m)
    want.push_back(float(record.counts[m]) / float(judge::measure_units[m % judge::measures_per_side]));
  const bool good = got == want;
  std::printf("inputs: %s\n", good ? "the same" : "different");
  return good;
}

/// Compares the card's slope with one counted here in double precision.
bool finds_the_slope(Workshop& shop) {
  NetInTraining net("test", 64, {true, false, false, false}, 7);
  std::mt19937 random(1);
  std::vector<float> x(std::size_t{batch} * inputs);
  std::vector<float> t(batch * outputs);
  for (float& v : x) v = random() % 5 == 0 ? float(random() % 100) / 100 : 0;
  for (float& v : t) v = float(random() % 100) / 100;
  CHECK(cudaMemcpy(shop.x.data, x.data(), x.size() * 4, cudaMemcpyHostToDevice));
  CHECK(cudaMemcpy(shop.target.data, t.data(), t.size() * 4, cudaMemcpyHostToDevice));
  net.find_slope(shop);
  const std::vector<float> got = net.slope();
  const std::vector<float> w = net.running();
  const auto& at = net.shape().at;
  const int h = net.shape().hidden;
  std::vector<double> want(w.size(), 0.0);
  for (int r = 0; r < batch; ++r) {
    std::vector<double> a(h), b(second_layer), d(outputs), db(second_layer), da(h);
    for (int i = 0; i < h; ++i) {
      a[i] = w[at[1] + i];
      for (int k = 0; k < inputs; ++k) a[i] += double(x[r * inputs + k]) * w[k * h + i];
      a[i] = std::max(a[i], 0.0);
    }
    for (int j = 0; j < second_layer; ++j) {
      b[j] = w[at[3] + j];
      for (int i = 0; i < h; ++i) b[j] += a[i] * w[at[2] + i * second_layer + j];
      b[j] = std::max(b[j], 0.0);
    }
    for (int o = 0; o < outputs; ++o) {
      double z = w[at[5] + o];
      for (int j = 0; j < second_layer; ++j) z += b[j] * w[at[4] + j * outputs + o];
      d[o] = (1 / (1 + std::exp(-z)) - t[r * outputs + o]) / batch;
      want[at[5] + o] += d[o];
      for (int j = 0; j < second_layer; ++j) {
        want[at[4] + j * outputs + o] += b[j] * d[o];
        db[j] += w[at[4] + j * outputs + o] * d[o];
      }
    }
    for (int j = 0; j < second_layer; ++j) {
      if (b[j] <= 0) db[j] = 0;
      want[at[3] + j] += db[j];
      for (int i = 0; i < h; ++i) {
        want[at[2] + i * second_layer + j] += a[i] * db[j];
        da[i] += w[at[2] + i * second_layer + j] * db[j];
      }
    }
    for (int i = 0; i < h; ++i) {
      if (a[i] <= 0) da[i] = 0;
      want[at[1] + i] += da[i];
      for (int k = 0; k < inputs; ++k) want[k * h + i] += x[r * inputs + k] * da[i];
    }
  }
  bool good = true;
  for (int m = 0; m < 6; ++m) {
    double difference = 0, size = 0;
    for (int i = at[m]; i < at[m + 1]; ++i) {
      difference += (got[i] - want[i]) * (got[i] - want[i]);
      size += want[i] * want[i];
    }
    const double relative = std::sqrt(difference / size);
    std::printf("matrix %d: off by %.2e of its size\n", m, relative);
    good = good && relative < 1e-3;
  }
  return good;
}

int self_test() {
  Workshop shop(64);
  const bool inputs_good = draws_what_nets_see(shop);
  const bool slope_good = finds_the_slope(shop);
  const bool good = inputs_good && slope_good;
  std::printf(good ? "good\n" : "WRONG\n");
  return good ? 0 : 1;
}

}  // namespace
}  // namespace pointwright::train

int main(int argc, char** argv) {
  pointwright::train::Options options;
  CLI::App app("Learns nets on a graphics card from games that another program plays.");
  const auto add = [&](const char* name, auto& value, const char* what) {
    app.add_option(name, value, what)->capture_default_str();
  };
  bool self_test = false;
  app.add_flag("--self-test", self_test, "instead: compare inputs and slopes with a plain count");
  add("--games", options.games, "the command that writes lessons");
  add("--folder", options.folder, "where nets are written");
  add("--from", options.from, "folder of weights to begin with");
  add("--learner", options.learners, "NAME:WIDTH:phases or NAME:WIDTH:one, several times");
  add("--seconds", options.seconds, "how long");
  add("--publish-after", options.publish_after,
      "seconds; from then on the players take the nets of the first learner");
  add("--publish-every", options.publish_every, "seconds");
  add("--rate", options.rate, "how far a step goes at the start");
  add("--last-rate", options.last_rate, "and at the end");
  add("--hold", options.hold, "share of the time before the rate falls");
  add("--keep", options.keep, "of the running mean, at each step");
  CLI11_PARSE(app, argc, argv);
  if (self_test) return pointwright::train::self_test();
  if (options.games.empty() || options.learners.empty()) {
    std::fprintf(stderr, "--games and --learner are needed; --help says more\n");
    return 2;
  }
  return pointwright::train::train(options);
}
