#pragma once

#include <string>
#include <utility>
#include <vector>

#include <tl/expected.hpp>

namespace coatwright {

/// What kind of failure an Error is; exit_code_of() turns it into the program's exit code.
enum class ErrorCode {
  kUsage,       ///< The call is wrong: an unknown name, a malformed option value.
  kOutOfRange,  ///< A value that is well formed but not allowed.
  kTime,        ///< A time that cannot be read, does not exist or exists twice.
  kNotFound,    ///< A named product, schedule, piece ... does not exist.
  kInputFile,   ///< A recipe or a logger file is wrong.
  kNo,          ///< The answer is no: it does not fit, not yet.
  kStore,       ///< The store cannot be used.
  kFault,       ///< A fault of the program.
};

/// An expected failure: what is wrong, in the user's words, and where.
struct Error {
  ErrorCode code = ErrorCode::kFault;
  std::string message;
  std::vector<std::string> context;  ///< Innermost first: key, line, file.

  /// Adds where it happened on the way up.
  [[nodiscard]] Error in(std::string where) && {
    context.push_back(std::move(where));
    return std::move(*this);
  }
  /// @return "outermost: ...: innermost: message".
  [[nodiscard]] std::string text() const;
};

/// A value or the reason why there is none.
template <class T>
using Result = tl::expected<T, Error>;

/// Shorthand for returning a failure.
[[nodiscard]] inline tl::unexpected<Error> fail(ErrorCode code, std::string message) {
  return tl::unexpected<Error>(Error{code, std::move(message), {}});
}

/// Hands a failure on, adding where it happened.
[[nodiscard]] inline tl::unexpected<Error> pass_on(Error error, std::string where) {
  return tl::unexpected<Error>(std::move(error).in(std::move(where)));
}
[[nodiscard]] inline tl::unexpected<Error> pass_on(Error error) {
  return tl::unexpected<Error>(std::move(error));
}

/// The program's exit codes, as documented in docs/exit-codes.md.
enum class ExitCode {
  kDone = 0,   ///< Done, or the answer is yes.
  kFault = 1,  ///< A fault of the program.
  kUsage = 2,  ///< Wrong call.
  kNo = 3,     ///< The answer is no: does not fit, not yet.
  kStore = 4,  ///< The store cannot be used.
  kInput = 5,  ///< An input file is wrong.
};

[[nodiscard]] ExitCode exit_code_of(ErrorCode code);

}  // namespace coatwright
