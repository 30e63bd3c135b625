# Run as `cmake -DOUTPUT=... -DSOURCES=a.sql;b.sql -P EmbedSql.cmake`: writes the schema steps, in the order of
# their numbers, as a C++ table of raw strings.
cmake_policy(SET CMP0057 NEW) # IN_LIST
set(numbers "")
set(table "")
foreach(source IN LISTS SOURCES)
  get_filename_component(name ${source} NAME_WE)
  string(REGEX MATCH "^[0-9]+" number ${name})
  string(REGEX REPLACE "^0+" "" number ${number})
  if(number IN_LIST numbers)
    message(FATAL_ERROR "two steps of the schema have the number ${number}: ${name} would never be run")
  endif()
  list(APPEND numbers ${number})
  file(READ ${source} sql)
  string(APPEND table "    SchemaStep{${number}, \"${name}\", R\"sql(${sql})sql\"},\n")
endforeach()
file(WRITE ${OUTPUT}.new
"// Written by cmake/EmbedSql.cmake from db/schema/*.sql.
#include \"db/sqlite/schema_steps.hpp\"

namespace harpkeep::db {

namespace {
const SchemaStep steps[] = {
${table}};
} // namespace

std::span<const SchemaStep> schema_steps()
{
    return steps;
}

} // namespace harpkeep::db
")
execute_process(COMMAND ${CMAKE_COMMAND} -E copy_if_different ${OUTPUT}.new ${OUTPUT})
