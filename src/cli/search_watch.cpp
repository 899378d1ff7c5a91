#include "cli/search_watch.h"

#include <algorithm>
#include <charconv>
#include <csignal>
#include <cstdio>
#include <utility>

#include <fmt/format.h>
#include <unistd.h>

namespace coatwright {
namespace {

using std::chrono::milliseconds;

volatile std::sig_atomic_t interrupted = 0;

void note_interrupt(int) {
  interrupted = 1;
}

/// The handler is taken off when it is called, so that a second signal ends the program.
void catch_interrupt_once() {
  interrupted = 0;
  struct sigaction action = {};
  action.sa_handler = note_interrupt;
  action.sa_flags = static_cast<int>(SA_RESETHAND);
  sigemptyset(&action.sa_mask);
  sigaction(SIGINT, &action, nullptr);
}

void let_interrupt_end_the_program() {
  struct sigaction action = {};
  action.sa_handler = SIG_DFL;
  sigemptyset(&action.sa_mask);
  sigaction(SIGINT, &action, nullptr);
}

std::optional<double> milliseconds_of(std::string_view unit) {
  constexpr std::pair<std::string_view, double> kUnits[] = {
      {"s", 1e3}, {"min", 60e3}, {"h", 3600e3}};
  for (const auto& [name, value] : kUnits) {
    if (name == unit) {
      return value;
    }
  }
  return std::nullopt;
}

}  // namespace

Result<milliseconds> parse_span(const std::string& option, const std::string& text) {
  constexpr double kMost = 24.0 * 3600e3;
  double number = 0.0;
  const auto [end, failure] = std::from_chars(text.data(), text.data() + text.size(), number);
  const auto unit = milliseconds_of(std::string_view(end, text.data() + text.size() - end));
  if (failure != std::errc() || !unit) {
    return fail(ErrorCode::kUsage,
                fmt::format("{} '{}' is no span of time: write 5s, 2min or 1h", option, text));
  }
  if (!(number * *unit >= 1.0 && number * *unit <= kMost)) {
    return fail(
        ErrorCode::kOutOfRange,
        fmt::format("{} '{}' is out of range: above 0 and up to 24h is allowed", option, text));
  }
  return milliseconds(static_cast<std::int64_t>(number * *unit));
}

LongSearch::LongSearch(std::optional<milliseconds> at_most)
    : begun_(Clock::now()), told_(begun_), is_watched_(isatty(STDERR_FILENO) == 1) {
  if (at_most) {
    deadline_ = begun_ + *at_most;
  }
  catch_interrupt_once();
}

LongSearch::~LongSearch() {
  let_interrupt_end_the_program();
  if (shown_ > 0) {
    fmt::print(stderr, "\r{:{}}\r", "", shown_);
  }
}

bool LongSearch::is_to_stop() const {
  return interrupted != 0 || (deadline_ && Clock::now() >= *deadline_);
}

void LongSearch::tell(std::string_view line) {
  constexpr milliseconds kQuiet{1000};
  constexpr milliseconds kBetween{250};
  const auto now = Clock::now();
  if (!is_watched_ || now - begun_ < kQuiet || now - told_ < kBetween) {
    return;
  }
  fmt::print(stderr, "\r{:{}}", line, shown_);
  std::fflush(stderr);
  shown_ = std::max(shown_, line.size());
  told_ = now;
}

}  // namespace coatwright
