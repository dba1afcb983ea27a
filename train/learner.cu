// Learns nets on a graphics card from the lessons that another program plays (lessons_main.cpp).
// Built apart from the rest: nvcc -O3 -std=c++17 -arch=sm_90 -I. train/learner.cu -lcublas
// See docs/training.md.

#include <cublas_v2.h>
#include <cuda_runtime.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <map>
#include <memory>
#include <mutex>
#include <random>
#include <string>
#include <thread>
#include <vector>

#include "train/lesson_record.hpp"

namespace {

using pointwright::train::LessonRecord;

constexpr int phases = 4;
const char* const phase_names[phases] = {"open", "blockade", "bear-in", "race"};
constexpr int camp_units = 26 * 4;
constexpr int measure_count = 24;
constexpr int inputs = 2 * camp_units + measure_count;
constexpr int second_layer = 32;
constexpr int outputs = 5;
constexpr int batch = 8192;
constexpr int chunk = 8192;  // lessons that are copied to the card at a time
constexpr std::size_t most_kept = std::size_t{1536} * chunk;  // of each phase: 12.6 million

#define CHECK(call)                                                                    \
  do {                                                                                 \
    const auto status = (call);                                                        \
    if (static_cast<int>(status) != 0) {                                               \
      std::fprintf(stderr, "%s:%d: %s failed (%d)\n", __FILE__, __LINE__, #call,      \
                   static_cast<int>(status));                                          \
      std::exit(1);                                                                    \
    }                                                                                  \
  } while (false)

// ---------------------------------------------------------------------------------- kernels

__constant__ float measure_units[12] = {150, 36, 36 * 12, 36, 6, 6, 36 * 8, 5, 15, 60, 6, 24};

__device__ float unit_value(int place, int unit, int count) {
  const float n = static_cast<float>(count);
  if (place == 0) {  // borne off
    if (unit == 0) return count >= 1 ? 1.0f : 0.0f;
    if (unit == 1) return fminf(n, 5.0f) / 5;
    if (unit == 2) return fminf(fmaxf(n - 5, 0.0f), 5.0f) / 5;
    return fminf(fmaxf(n - 10, 0.0f), 5.0f) / 5;
  }
  if (unit < 3) return count > unit ? 1.0f : 0.0f;
  return count > 3 ? (n - 3) / 2 : 0.0f;
}

/// Where a net's lessons come from: rings of some phases, each with its share.
struct Source {
  const LessonRecord* ring[phases];
  unsigned first[phases];  // the oldest lesson that may be drawn
  unsigned size[phases];   // how many may be drawn, going round
  float up_to[phases];     // cumulated shares
};

__device__ unsigned scrambled(unsigned long long x) {
  x ^= x >> 33;
  x *= 0xff51afd7ed558ccdULL;
  x ^= x >> 33;
  x *= 0xc4ceb9fe1a85ec53ULL;
  x ^= x >> 33;
  return static_cast<unsigned>(x);
}

/// One block for each lesson of the batch: draws it and writes its inputs and targets.
__global__ void draw(Source source, unsigned long long seed, float* x, float* target) {
  const unsigned row = blockIdx.x;
  const unsigned long long number = seed * gridDim.x + row;
  const float which = scrambled(2 * number) * (1.0f / 4294967296.0f);
  int phase = 0;
  while (phase < phases - 1 && which >= source.up_to[phase]) ++phase;
  const unsigned at =
      (source.first[phase] + scrambled(2 * number + 1) % source.size[phase]) % most_kept;
  const LessonRecord& record = source.ring[phase][at];
  const int i = threadIdx.x;
  if (i < 2 * camp_units) {
    const int side = i / camp_units;
    const int place = i % camp_units / 4;
    x[row * inputs + i] = unit_value(place, i % 4, record.camps[side][place]);
  } else if (i < inputs) {
    const int m = i - 2 * camp_units;
    x[row * inputs + i] = record.counts[m] / measure_units[m % 12];
  } else if (i < inputs + outputs) {
    target[row * outputs + i - inputs] = record.target[i - inputs];
  }
}

__global__ void add_bias_and_rectify(float* z, const float* bias, int rows, int width) {
  const int i = blockIdx.x * blockDim.x + threadIdx.x;
  if (i < rows * width) z[i] = fmaxf(z[i] + bias[i % width], 0.0f);
}

/// The slope at the outputs: output - target, over the size of the batch. The squared errors of the
/// chance to win are added up in `squared`.
__global__ void output_slope(const float* z, const float* bias, const float* target, float* slope,
                             int rows, float* squared) {
  const int i = blockIdx.x * blockDim.x + threadIdx.x;
  float error = 0;
  if (i < rows * outputs) {
    error = 1.0f / (1.0f + expf(-(z[i] + bias[i % outputs]))) - target[i];
    slope[i] = error / rows;
  }
  float mine = i < rows * outputs && i % outputs == 0 ? error * error : 0.0f;
  for (int k = 16; k > 0; k /= 2) mine += __shfl_down_sync(0xffffffffu, mine, k);
  if (threadIdx.x % 32 == 0) atomicAdd(squared, mine);
}

/// The slope behind a rectified layer: nothing where it gave nothing.
__global__ void through_rectifier(float* slope, const float* layer, int count) {
  const int i = blockIdx.x * blockDim.x + threadIdx.x;
  if (i < count && layer[i] <= 0) slope[i] = 0;
}

/// A step of Adam, and the running mean of the weights.
__global__ void adam_step(float* w, const float* slope, float* mean, float* square, float* running,
                          int count, float rate, float mean_scale, float square_scale, float keep) {
  const int i = blockIdx.x * blockDim.x + threadIdx.x;
  if (i >= count) return;
  const float g = slope[i];
  mean[i] = 0.9f * mean[i] + 0.1f * g;
  square[i] = 0.999f * square[i] + 0.001f * g * g;
  w[i] -= rate * mean[i] * mean_scale / (sqrtf(square[i] * square_scale) + 1e-8f);
  running[i] = keep * running[i] + (1 - keep) * w[i];
}

// ---------------------------------------------------------------------------------- memory

struct DeviceFloats {
  float* data = nullptr;
  explicit DeviceFloats(std::size_t count) {
    CHECK(cudaMalloc(&data, count * sizeof(float)));
    CHECK(cudaMemset(data, 0, count * sizeof(float)));
  }
  DeviceFloats(const DeviceFloats&) = delete;
  DeviceFloats& operator=(const DeviceFloats&) = delete;
  ~DeviceFloats() { cudaFree(data); }
};

int blocks(int count) {
  return (count + 255) / 256;
}

// ---------------------------------------------------------------------------------- nets

/// Row-major C = op(A) op(B), with C of m x n and k in between.
void multiply(cublasHandle_t blas, bool turn_a, bool turn_b, int m, int n, int k, const float* a,
              const float* b, float* c) {
  const float one = 1;
  const float none = 0;
  CHECK(cublasSgemm(blas, turn_b ? CUBLAS_OP_T : CUBLAS_OP_N, turn_a ? CUBLAS_OP_T : CUBLAS_OP_N,
                    n, m, k, &one, b, turn_b ? k : n, a, turn_a ? m : k, &none, c, n));
}

/// Memory that all nets share, as they learn one after the other.
struct Workshop {
  explicit Workshop(int widest)
      : x(std::size_t{batch} * inputs),
        target(batch * outputs),
        first(std::size_t{batch} * widest),
        second(batch * second_layer),
        out(batch * outputs),
        first_slope(std::size_t{batch} * widest),
        second_slope(batch * second_layer),
        out_slope(batch * outputs),
        ones(batch) {
    const std::vector<float> all_ones(batch, 1.0f);
    CHECK(cudaMemcpy(ones.data, all_ones.data(), batch * sizeof(float), cudaMemcpyHostToDevice));
    CHECK(cublasCreate(&blas));
  }
  cublasHandle_t blas = nullptr;
  DeviceFloats x, target, first, second, out, first_slope, second_slope, out_slope, ones;
};

/// The order of the matrices is that of judge::Weights.
struct Shape {
  int hidden;
  int at[7];
  explicit Shape(int width) : hidden(width) {
    const int sizes[6] = {inputs * width, width, width * second_layer, second_layer,
                          second_layer * outputs, outputs};
    at[0] = 0;
    for (int i = 0; i < 6; ++i) at[i + 1] = at[i] + sizes[i];
  }
  int count() const { return at[6]; }
};

class NetInTraining {
 public:
  NetInTraining(std::string name, int width, std::array<bool, phases> studied, unsigned seed)
      : name_(std::move(name)),
        shape_(width),
        studied_(studied),
        weights_(shape_.count()),
        slope_(shape_.count()),
        mean_(shape_.count()),
        square_(shape_.count()),
        running_(shape_.count()),
        squared_(1) {
    std::vector<float> w(shape_.count(), 0.0f);
    std::mt19937 random(seed);
    const auto fill = [&](int matrix, float size) {
      for (int i = shape_.at[matrix]; i < shape_.at[matrix + 1]; ++i)
        w[i] = size * (static_cast<float>(random()) / 2147483648.0f - 1.0f);
    };
    fill(0, 0.15f);
    fill(2, 1.0f / std::sqrt(static_cast<float>(width)));
    fill(4, 0.2f);
    set(w);
  }

  const std::string& name() const { return name_; }
  const Shape& shape() const { return shape_; }
  bool studies(int phase) const { return studied_[phase]; }
  long steps() const { return steps_; }

  void set(const std::vector<float>& w) {
    CHECK(cudaMemcpy(weights_.data, w.data(), w.size() * sizeof(float), cudaMemcpyHostToDevice));
    CHECK(cudaMemcpy(running_.data, w.data(), w.size() * sizeof(float), cudaMemcpyHostToDevice));
  }

  std::vector<float> running() const { return copied(running_); }
  std::vector<float> slope() const { return copied(slope_); }

  /// The slope of the loss over the batch that lies in the workshop.
  void find_slope(Workshop& shop) {
    const int h = shape_.hidden;
    float* const w = weights_.data;
    float* const g = slope_.data;
    const auto& at = shape_.at;
    multiply(shop.blas, false, false, batch, h, inputs, shop.x.data, w + at[0], shop.first.data);
    add_bias_and_rectify<<<blocks(batch * h), 256>>>(shop.first.data, w + at[1], batch, h);
    multiply(shop.blas, false, false, batch, second_layer, h, shop.first.data, w + at[2],
             shop.second.data);
    add_bias_and_rectify<<<blocks(batch * second_layer), 256>>>(shop.second.data, w + at[3], batch,
                                                                second_layer);
    multiply(shop.blas, false, false, batch, outputs, second_layer, shop.second.data, w + at[4],
             shop.out.data);
    output_slope<<<blocks(batch * outputs), 256>>>(shop.out.data, w + at[5], shop.target.data,
                                                   shop.out_slope.data, batch, squared_.data);
    multiply(shop.blas, true, false, second_layer, outputs, batch, shop.second.data,
             shop.out_slope.data, g + at[4]);
    multiply(shop.blas, false, false, 1, outputs, batch, shop.ones.data, shop.out_slope.data,
             g + at[5]);
    multiply(shop.blas, false, true, batch, second_layer, outputs, shop.out_slope.data, w + at[4],
             shop.second_slope.data);
    through_rectifier<<<blocks(batch * second_layer), 256>>>(
        shop.second_slope.data, shop.second.data, batch * second_layer);
    multiply(shop.blas, true, false, h, second_layer, batch, shop.first.data,
             shop.second_slope.data, g + at[2]);
    multiply(shop.blas, false, false, 1, second_layer, batch, shop.ones.data,
             shop.second_slope.data, g + at[3]);
    multiply(shop.blas, false, true, batch, h, second_layer, shop.second_slope.data, w + at[2],
             shop.first_slope.data);
    through_rectifier<<<blocks(batch * h), 256>>>(shop.first_slope.data, shop.first.data,
                                                  batch * h);
    multiply(shop.blas, true, false, inputs, h, batch, shop.x.data, shop.first_slope.data,
             g + at[0]);
    multiply(shop.blas, false, false, 1, h, batch, shop.ones.data, shop.first_slope.data,
             g + at[1]);
  }

  void step(float rate, float keep) {
    ++steps_;
    const float mean_scale = 1.0f / (1.0f - std::pow(0.9f, static_cast<float>(steps_)));
    const float square_scale = 1.0f / (1.0f - std::pow(0.999f, static_cast<float>(steps_)));
    // Early on the running mean would remember the first weights for too long.
    const float kept = std::min(keep, static_cast<float>(steps_) / (static_cast<float>(steps_) + 9));
    adam_step<<<blocks(shape_.count()), 256>>>(weights_.data, slope_.data, mean_.data, square_.data,
                                               running_.data, shape_.count(), rate, mean_scale,
                                               square_scale, kept);
  }

  /// Root mean square of the error of the chance to win since the last call.
  double error() {
    float squared = 0;
    CHECK(cudaMemcpy(&squared, squared_.data, sizeof squared, cudaMemcpyDeviceToHost));
    CHECK(cudaMemset(squared_.data, 0, sizeof squared));
    const double positions = static_cast<double>(steps_ - told_) * batch;
    told_ = steps_;
    return positions > 0 ? std::sqrt(squared / positions) : 0;
  }

 private:
  std::vector<float> copied(const DeviceFloats& from) const {
    std::vector<float> w(shape_.count());
    CHECK(cudaMemcpy(w.data(), from.data, w.size() * sizeof(float), cudaMemcpyDeviceToHost));
    return w;
  }

  std::string name_;
  Shape shape_;
  std::array<bool, phases> studied_;
  DeviceFloats weights_, slope_, mean_, square_, running_, squared_;
  long steps_ = 0;
  long told_ = 0;
};

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
  bool self_test = false;
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
    for (int p = 0; p < phases; ++p) write_raw(stem + phase_names[p] + ".raw", net_of(p));
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
      add(phase_names[p], width, studied);
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
    std::remove((options.folder + "/" + std::to_string(generation - 3) + "-" + phase_names[p] +
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
        draw<<<batch, 256>>>(rings.source(*net), seed++, shop.x.data, shop.target.data);
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

/// Compares the card's slope with one counted here in double precision.
int self_test() {
  NetInTraining net("test", 64, {true, false, false, false}, 7);
  Workshop shop(64);
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
  std::printf(good ? "good\n" : "WRONG\n");
  return good ? 0 : 1;
}

}  // namespace

int main(int argc, char** argv) {
  Options options;
  for (int i = 1; i < argc; ++i) {
    const std::string name = argv[i];
    if (name == "--self-test") return self_test();
    if (i + 1 == argc) {
      std::fprintf(stderr, "%s needs a value\n", argv[i]);
      return 2;
    }
    const std::string value = argv[++i];
    const double number = std::atof(value.c_str());
    if (name == "--games") options.games = value;
    else if (name == "--folder") options.folder = value;
    else if (name == "--from") options.from = value;
    else if (name == "--learner") options.learners.push_back(value);
    else if (name == "--seconds") options.seconds = number;
    else if (name == "--publish-after") options.publish_after = number;
    else if (name == "--publish-every") options.publish_every = number;
    else if (name == "--rate") options.rate = float(number);
    else if (name == "--last-rate") options.last_rate = float(number);
    else if (name == "--hold") options.hold = number;
    else if (name == "--keep") options.keep = float(number);
    else {
      std::fprintf(stderr, "%s is no option\n", name.c_str());
      return 2;
    }
  }
  return train(options);
}
