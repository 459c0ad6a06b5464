// engine/core/student.h -- Student's t distribution.
#pragma once

namespace engine {

// The value that a t variable of `df` degrees of freedom (above 0, not necessarily whole) stays
// below with probability p (0 < p < 1).
[[nodiscard]] double student_t_quantile(double df, double p);

}  // namespace engine
