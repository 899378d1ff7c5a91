#pragma once

#include <string>

#include "plan/bench_session.h"

/// A session as tests compare it.
namespace asked {

using namespace coatwright;

/// "clean 0-2, mix 2-7 ..." in minutes.
inline std::string in_words(const BenchSession& session) {
  std::string text;
  for (const SessionPart& part : session.parts) {
    text += (text.empty() ? "" : ", ") + std::string(name_of(part.kind)) + " " +
            std::to_string(part.offset.count() / 60) + "-" +
            std::to_string((part.offset + part.length).count() / 60);
  }
  return text;
}

}  // namespace asked
