#include "plan/work_sequence.h"

#include <catch2/catch.hpp>

#include "plan/plan_requests.h"
#include "plan/progress.h"

using namespace coatwright;
using namespace asked;

namespace {

/// "sand P120 | coat 1 on 0 | flip | ..."
std::string in_words(const std::vector<WorkItem>& works) {
  std::string text;
  for (const WorkItem& work : works) {
    text += text.empty() ? "" : " | ";
    switch (work.kind) {
      case WorkItem::Kind::kSample:
        text += "sample";
        break;
      case WorkItem::Kind::kSand:
        text += "sand " + work.grit;
        break;
      case WorkItem::Kind::kRaiseGrain:
        text += "raise " + work.grit;
        break;
      case WorkItem::Kind::kFlip:
        text += "flip";
        break;
      case WorkItem::Kind::kRubOut:
        text += "rub out " + (work.grit.empty() ? "polish" : work.grit);
        break;
      case WorkItem::Kind::kCoat:
        text += work.abrade_grit.empty() ? "" : "abraded ";
        text += work.wash == nullptr ? "" : "washed ";
        text += "coat " + std::to_string(work.coat) + " on";
        for (const int face : work.faces) {
          text += " " + std::to_string(face);
        }
        break;
    }
  }
  return text;
}

std::string sequence(const Schedule& schedule, Faces faces, FaceOrder order) {
  PieceRequest piece;
  piece.schedule = &schedule;
  piece.faces = faces;
  const auto works = scheduled_works(schedule, book());
  if (!works) {
    return works.error().text();
  }
  return in_words(work_sequence(piece, order, *works, progress_of(piece, *works, Time())));
}

const Schedule kTwoProducts = schedule_of({sanding({"P120", "P150"}),
                                           coats("dewaxed-shellac", Method::kPad, 1),
                                           abrading("P320"),
                                           coats("waterborne-clear", Method::kBrush, 2)});

}  // namespace

TEST_CASE("One face: grits in turn, then the coats; the first after an abrading is abraded",
          "[plan]") {
  CHECK(sequence(kTwoProducts, Faces::kOne, FaceOrder::kPerCoat) ==
        "sand P120 | sand P150 | coat 1 on 0 | abraded coat 2 on 0 | coat 3 on 0");
}

TEST_CASE("On points both faces are coated in one session", "[plan]") {
  CHECK(sequence(kTwoProducts, Faces::kOnPoints, FaceOrder::kPerCoat) ==
        "sand P120 | sand P150 | coat 1 on 0 1 | abraded coat 2 on 0 1 | coat 3 on 0 1");
}

TEST_CASE("Flat and coat by coat the piece is turned over for each face", "[plan]") {
  CHECK(sequence(kTwoProducts, Faces::kTwo, FaceOrder::kPerCoat) ==
        "sand P120 | sand P150 | coat 1 on 0 | flip | coat 1 on 1 | flip | abraded coat 2 on 0 | "
        "flip | abraded coat 2 on 1 | flip | coat 3 on 0 | flip | coat 3 on 1");
}

TEST_CASE("Flat and product by product a face takes all coats of it before it is turned",
          "[plan]") {
  CHECK(sequence(kTwoProducts, Faces::kTwo, FaceOrder::kPerProduct) ==
        "sand P120 | sand P150 | coat 1 on 0 | flip | coat 1 on 1 | flip | abraded coat 2 on 0 | "
        "coat 3 on 0 | flip | abraded coat 2 on 1 | coat 3 on 1");
}

TEST_CASE("Flat and begun on the face that is up, it is turned once a coat and ends on the front",
          "[plan]") {
  CHECK(sequence(kTwoProducts, Faces::kTwo, FaceOrder::kUpFirst) ==
        "sand P120 | sand P150 | coat 1 on 0 | flip | coat 1 on 1 | abraded coat 2 on 1 | flip | "
        "abraded coat 2 on 0 | coat 3 on 0 | flip | coat 3 on 1");
  const Schedule two = schedule_of({coats("waterborne-clear", Method::kBrush, 2)});
  CHECK(sequence(two, Faces::kTwo, FaceOrder::kUpFirst) ==
        "coat 1 on 1 | flip | coat 1 on 0 | coat 2 on 0 | flip | coat 2 on 1");
}

TEST_CASE("Coats are numbered over the schedule and within their product", "[plan]") {
  PieceRequest piece;
  piece.schedule = &kTwoProducts;
  const auto works = scheduled_works(kTwoProducts, book());
  REQUIRE(works);
  const WorkItem& last = works->back();
  CHECK(last.coat == 3);
  CHECK(last.coat_of_product == 2);
  CHECK(last.coats_of_product == 2);
  CHECK(last.last_coat);
  CHECK_FALSE((*works)[2].last_coat);
  CHECK(last.product->name == "waterborne-clear");
}

TEST_CASE("A schedule with an unknown product names the schedule", "[plan]") {
  const Schedule wrong = schedule_of({coats("no-such-thing", Method::kWipe, 1)});
  const std::string text = sequence(wrong, Faces::kOne, FaceOrder::kPerCoat);
  CHECK(text.find("no-such-thing") != std::string::npos);
  CHECK(text.find("schedule by-hand") != std::string::npos);
}
