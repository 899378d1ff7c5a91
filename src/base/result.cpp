#include "base/result.h"

namespace coatwright {

std::string Error::text() const {
  std::string whole;
  for (auto where = context.rbegin(); where != context.rend(); ++where) {
    whole += *where + ": ";
  }
  return whole + message;
}

ExitCode exit_code_of(ErrorCode code) {
  switch (code) {
    case ErrorCode::kUsage:
    case ErrorCode::kOutOfRange:
    case ErrorCode::kTime:
    case ErrorCode::kNotFound:
      return ExitCode::kUsage;
    case ErrorCode::kInputFile:
      return ExitCode::kInput;
    case ErrorCode::kNo:
      return ExitCode::kNo;
    case ErrorCode::kStore:
      return ExitCode::kStore;
    case ErrorCode::kFault:
      break;
  }
  return ExitCode::kFault;
}

}  // namespace coatwright
