#include "base/result.h"

#include <catch2/catch.hpp>

using namespace coatwright;

TEST_CASE("An error tells where it happened from the outside in", "[base]") {
  const Error error = Error{ErrorCode::kInputFile, "a number is needed", {}}
                          .in("recoat_min_hours")
                          .in("line 12")
                          .in("oil.toml");
  CHECK(error.text() == "oil.toml: line 12: recoat_min_hours: a number is needed");
  CHECK(Error{ErrorCode::kNo, "it does not fit", {}}.text() == "it does not fit");
}

TEST_CASE("A failure handed on keeps its code and gains its place", "[base]") {
  const Result<int> inner = fail(ErrorCode::kOutOfRange, "too hot");
  REQUIRE_FALSE(inner.has_value());
  const Result<std::string> outer = pass_on(inner.error(), "line 3");
  REQUIRE_FALSE(outer.has_value());
  CHECK(outer.error().code == ErrorCode::kOutOfRange);
  CHECK(outer.error().text() == "line 3: too hot");
  const Result<std::string> same = pass_on(inner.error());
  CHECK(same.error().text() == "too hot");
}

TEST_CASE("Each kind of failure has its exit code", "[base]") {
  // The design's table: 1 fault, 2 wrong call, 3 the answer is no, 4 the store, 5 an input file.
  const auto code_of = [](ErrorCode code) { return static_cast<int>(exit_code_of(code)); };
  CHECK(code_of(ErrorCode::kFault) == 1);
  CHECK(code_of(ErrorCode::kUsage) == 2);
  CHECK(code_of(ErrorCode::kOutOfRange) == 2);
  CHECK(code_of(ErrorCode::kTime) == 2);
  CHECK(code_of(ErrorCode::kNotFound) == 2);
  CHECK(code_of(ErrorCode::kNo) == 3);
  CHECK(code_of(ErrorCode::kStore) == 4);
  CHECK(code_of(ErrorCode::kInputFile) == 5);
}
