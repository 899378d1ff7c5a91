#include "base/content_hash.h"

#include <catch2/catch.hpp>

namespace coatwright {

TEST_CASE("A content's hash is that of the published test vectors", "[base]") {
  // EVIDENCE: fnv_draft appendix C, 64-bit FNV-1a, from memory
  CHECK(content_hash("") == "cbf29ce484222325");
  CHECK(content_hash("a") == "af63dc4c8601ec8c");
  CHECK(content_hash("foobar") == "85944171f73967e8");
}

}  // namespace coatwright
