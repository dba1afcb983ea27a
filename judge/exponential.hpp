#pragma once

namespace pointwright::judge {

/// e to the power of x, for -30 <= x <= 30, is 2 to the power of x log2(e): of that the whole part
/// is an exponent, and the rest f, -1/2 <= f <= 1/2, goes into the series of 2^f around 0. Written
/// out so that every build gives the same numbers; the relative error is below 1e-6.
inline constexpr float exponent_limit = 30;
/// Adding and taking away 1.5 * 2^23 rounds to the nearest whole number.
inline constexpr float exponent_rounder = 12582912.0F;
/// The coefficients of f^6 to f^2; then come ln 2 and 1.
inline constexpr float power_series[] = {1.5403530e-4F, 1.3333558e-3F, 9.6181291e-3F, 5.5504109e-2F,
                                         2.4022651e-1F};

}  // namespace pointwright::judge
