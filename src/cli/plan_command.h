#pragma once

#include "cli/common.h"

namespace coatwright {

/// `plan`: one piece from a finishing schedule to a calendar, stored or given by options alone.
void add_plan(CLI::App& app, const GlobalOptions& global, Work& chosen);

}  // namespace coatwright
