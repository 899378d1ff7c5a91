#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "base/time.h"

namespace coatwright {

/// A can that the shop opened.
struct Can {
  std::int64_t number = 0;  ///< Given by the store.
  std::string product;      ///< Recipe name.
  Time opened_at;
  std::optional<Time> made_at;  ///< As the can says.
  std::string batch;            ///< Empty: not said.
  std::string note;
  std::optional<Time> emptied_at;  ///< None: it is in use.
};

}  // namespace coatwright
