// The watch on a terminal's end: it is told to stop while it waits for its next look.
#include <csignal>
#include <filesystem>
#include <string>

#include <catch2/catch.hpp>
#include <sys/wait.h>
#include <unistd.h>

namespace {

/// The program, begun with its output in a pipe.
struct Running {
  pid_t process;
  int output;
};

Running begin_watch(const std::string& store) {
  int ends[2];
  REQUIRE(pipe(ends) == 0);
  const pid_t process = fork();
  REQUIRE(process >= 0);
  if (process == 0) {
    dup2(ends[1], STDOUT_FILENO);
    close(ends[0]);
    close(ends[1]);
    execl(COATWRIGHT_BINARY,
          COATWRIGHT_BINARY,
          "--store",
          store.c_str(),
          "watch",
          "--every",
          "1h",
          static_cast<char*>(nullptr));
    _exit(127);
  }
  close(ends[1]);
  return {process, ends[0]};
}

/// Reads until the first look has been written out.
std::string first_look(int output) {
  std::string text;
  char buffer[256];
  while (text.find("Ctrl-C ends it.") == std::string::npos) {
    const ssize_t count = read(output, buffer, sizeof buffer);
    if (count <= 0) {
      break;
    }
    text.append(buffer, static_cast<std::size_t>(count));
  }
  return text;
}

}  // namespace

TEST_CASE("The watch ends cleanly when it is told to", "[cli]") {
  for (const int signal : {SIGINT, SIGTERM}) {
    const Running running = begin_watch("no-such-store.sqlite");
    CHECK(first_look(running.output).find("Ctrl-C ends it.") != std::string::npos);
    REQUIRE(kill(running.process, signal) == 0);
    int status = 0;
    REQUIRE(waitpid(running.process, &status, 0) == running.process);
    CHECK(WIFEXITED(status));
    CHECK(WEXITSTATUS(status) == 0);
    close(running.output);
  }
  CHECK_FALSE(std::filesystem::exists("no-such-store.sqlite"));
}
