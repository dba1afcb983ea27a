#pragma once

#include <cublas_v2.h>
#include <cuda_runtime.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <random>
#include <string>
#include <vector>

#include "judge/net.hpp"
#include "judge/phase.hpp"
#include "train/lesson_record.hpp"

/// A net that learns on a graphics card. Its shape is that of judge::Weights.
namespace pointwright::train {

using judge::second_layer;

inline constexpr int phases = static_cast<int>(judge::all_phases.size());
inline constexpr int camp_units = judge::places_per_side * judge::units_per_place;
inline constexpr int inputs = judge::input_count;
inline constexpr int outputs = judge::output_count;
inline constexpr int batch = 8192;
inline constexpr int chunk = 8192;  ///< lessons that are copied to the card at a time
inline constexpr std::size_t most_kept = std::size_t{1536} * chunk;  ///< of each phase

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

/// judge::measure_units.
__constant__ std::int16_t units_of_measures[judge::measures_per_side];

/// Where a net's lessons come from: rings of some phases, each with its share.
struct Source {
  const LessonRecord* ring[phases];
  unsigned first[phases];  // the oldest lesson that may be drawn
  unsigned size[phases];   // how many may be drawn, going round
  float up_to[phases];     // cumulated shares
};

__device__ inline unsigned scrambled(unsigned long long x) {
  x ^= x >> 33;
  x *= 0xff51afd7ed558ccdULL;
  x ^= x >> 33;
  x *= 0xc4ceb9fe1a85ec53ULL;
  x ^= x >> 33;
  return static_cast<unsigned>(x);
}

/// One for each number of a lesson.
inline constexpr int threads_to_draw = 256;
static_assert(inputs + outputs <= threads_to_draw);

/// One block for each lesson of the batch: draws it and writes its inputs and targets.
static __global__ void draw(Source source, unsigned long long seed, float* x, float* target) {
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
    const int place = i % camp_units / judge::units_per_place;
    x[row * inputs + i] = judge::units(place, record.camps[side][place])[i % judge::units_per_place];
  } else if (i < inputs) {
    const int m = i - 2 * camp_units;
    x[row * inputs + i] = record.counts[m] / static_cast<float>(units_of_measures[m % judge::measures_per_side]);
  } else if (i < inputs + outputs) {
    target[row * outputs + i - inputs] = record.target[i - inputs];
  }
}

static __global__ void add_bias_and_rectify(float* z, const float* bias, int rows, int width) {
  const int i = blockIdx.x * blockDim.x + threadIdx.x;
  if (i < rows * width) z[i] = fmaxf(z[i] + bias[i % width], 0.0f);
}

/// The slope at the outputs: output - target, over the size of the batch. The squared errors of the
/// chance to win are added up in `squared`.
static __global__ void output_slope(const float* z, const float* bias, const float* target, float* slope,
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
static __global__ void through_rectifier(float* slope, const float* layer, int count) {
  const int i = blockIdx.x * blockDim.x + threadIdx.x;
  if (i < count && layer[i] <= 0) slope[i] = 0;
}

/// A step of Adam, and the running mean of the weights.
static __global__ void adam_step(float* w, const float* slope, float* mean, float* square, float* running,
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

inline int blocks(int count) {
  return (count + 255) / 256;
}

// ---------------------------------------------------------------------------------- nets

/// Row-major C = op(A) op(B), with C of m x n and k in between.
inline void multiply(cublasHandle_t blas, bool turn_a, bool turn_b, int m, int n, int k, const float* a,
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
    CHECK(cudaMemcpyToSymbol(units_of_measures, judge::measure_units.data(),
                             sizeof units_of_measures));
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

}  // namespace pointwright::train
