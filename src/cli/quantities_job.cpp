#include "cli/quantities_job.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/quantity_text.h"
#include "cli/finished_parts.h"
#include "cli/plan_request.h"
#include "recipe/nearest_names.h"

namespace coatwright {
namespace {

/// The one piece that is given by options alone.
Result<StoredPiece> piece_by_options(const QuantitiesOptions& options, const Session& session) {
  const auto size = piece_size(options.size);
  if (!size) {
    return pass_on(size.error());
  }
  StoredPiece piece;
  piece.name = "piece";
  piece.schedule = options.schedule;
  piece.species = options.species;
  piece.area = size->face;
  piece.faces = size->faces;
  piece.created_at = session.now;
  return piece;
}

Result<std::vector<StoredPiece>> stored_pieces(const QuantitiesOptions& options,
                                               const Session& session) {
  if (options.size.any() || !options.species.empty()) {
    return fail(ErrorCode::kUsage,
                "--species, --area, --top, --parts and --faces go with --schedule: a stored piece "
                "has its own");
  }
  if (!options.piece.empty()) {
    const auto piece = session.store.piece(options.piece);
    return piece ? Result<std::vector<StoredPiece>>(std::vector{*piece}) : pass_on(piece.error());
  }
  auto pieces = session.store.pieces();
  if (pieces && pieces->empty()) {
    return fail(ErrorCode::kUsage,
                "there is no piece: store one with `coatwright piece add`, or give --schedule and "
                "one of --area, --top, --parts");
  }
  return pieces;
}

Result<void> add_stored(const StoredPiece& stored, const Session& session, QuantitiesJob& job) {
  auto parts = finished_parts(stored, job.book, session);
  if (!parts) {
    return pass_on(parts.error());
  }
  for (FinishedPart& part : *parts) {
    part.request.name = part.shown_name;
    job.pieces.push_back(std::move(part.request));
    job.logs.push_back(std::move(part.log));
  }
  return {};
}

Result<void> add_pieces(const QuantitiesOptions& options,
                        const Session& session,
                        QuantitiesJob& job) {
  if (!options.schedule.empty()) {
    if (!options.piece.empty()) {
      return fail(ErrorCode::kUsage, "give one of these alone: a piece, --schedule");
    }
    const auto piece = piece_by_options(options, session);
    if (!piece) {
      return pass_on(piece.error());
    }
    auto request = piece_request_of(*piece, job.book);
    if (!request) {
      return pass_on(request.error());
    }
    job.pieces.push_back(std::move(*request));
    return {};
  }
  const auto pieces = stored_pieces(options, session);
  if (!pieces) {
    return pass_on(pieces.error());
  }
  for (const StoredPiece& piece : *pieces) {
    if (const auto added = add_stored(piece, session, job); !added) {
      return pass_on(added.error());
    }
  }
  return {};
}

Result<ToolChoice> tools_of(const QuantitiesOptions& options, const Application& application) {
  ToolChoice choice;
  choice.small_parts = options.small_parts;
  for (const std::string& name : options.tools) {
    const Tool* tool = application.tool(name);
    if (tool == nullptr) {
      std::vector<std::string> names;
      for (const Tool& known : application.tools) {
        names.push_back(known.name);
      }
      return fail(ErrorCode::kNotFound, no_such_name("tool", name, names));
    }
    choice.tools.push_back(tool);
  }
  return choice;
}

/// A tool that no coat is put on with was named by mistake.
Result<void> check_tools_used(const ToolChoice& choice, const std::vector<CoatUse>& coats) {
  for (const Tool* tool : choice.tools) {
    const bool used = std::any_of(coats.begin(), coats.end(), [tool](const CoatUse& coat) {
      return coat.tool->method == tool->method;
    });
    if (!used && !coats.empty()) {
      return fail(ErrorCode::kUsage,
                  fmt::format("--tool {}: no coat of these is put on by the method {}",
                              tool->name,
                              name_of(tool->method)));
    }
  }
  return {};
}

}  // namespace

Result<QuantitiesJob> job_of(const QuantitiesOptions& options,
                             const GlobalOptions& global,
                             const Session& session) {
  auto book = open_recipes(global);
  if (!book) {
    return pass_on(book.error());
  }
  QuantitiesJob job{std::move(*book), {}, {}};
  if (const auto added = add_pieces(options, session, job); !added) {
    return pass_on(added.error());
  }
  return job;
}

Result<std::vector<CoatUse>> coats_of(const QuantitiesJob& job,
                                      const QuantitiesOptions& options,
                                      Time now) {
  const auto application = job.book.application();
  if (!application) {
    return pass_on(application.error());
  }
  const auto choice = tools_of(options, **application);
  if (!choice) {
    return pass_on(choice.error());
  }
  std::vector<CoatUse> coats;
  for (const PieceRequest& piece : job.pieces) {
    const auto own = coats_to_come(piece, now, job.book, *choice);
    if (!own) {
      return pass_on(own.error(), piece.name);
    }
    coats.insert(coats.end(), own->begin(), own->end());
  }
  if (const auto checked = check_tools_used(*choice, coats); !checked) {
    return pass_on(checked.error());
  }
  return coats;
}

Result<std::pair<BatchAir, std::string>> batch_air_of(const QuantitiesOptions& options,
                                                      const Session& session) {
  constexpr std::chrono::hours kAhead{24};
  if (!options.in_air.empty()) {
    const auto air = parse_air(options.in_air);
    if (!air) {
      return pass_on(air.error(), "--in-air");
    }
    return std::pair(BatchAir{air->temperature, air->humidity}, std::string("as given"));
  }
  const auto record = session.air(session.now, session.now + kAhead);
  if (!record) {
    return pass_on(record.error());
  }
  return std::pair(warmest_air(*record, session.now, session.now + kAhead),
                   std::string("the warmest of the shop's next 24 h"));
}

}  // namespace coatwright
