#pragma once

#include <string>

#include "base/result.h"

namespace coatwright {

/// Reads a moisture of wood. @param text such as "9%". @param what it is called in messages.
/// @return mass of water over dry mass. Errors: kUsage; kOutOfRange unless 1 to 35 %.
[[nodiscard]] Result<double> parse_wood_moisture(const std::string& text, const std::string& what);

}  // namespace coatwright
