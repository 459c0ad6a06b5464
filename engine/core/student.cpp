#include "engine/core/student.h"

#include <boost/math/distributions/students_t.hpp>

namespace engine {

double student_t_quantile(double df, double p) {
  return boost::math::quantile(boost::math::students_t(df), p);
}

}  // namespace engine
