# What `cmake --install` puts where, and the Debian package made of it.

include(GNUInstallDirs)

# The manual page and the completions are printed by the program itself, from the same tree as its help.
set(printed ${PROJECT_BINARY_DIR}/printed)
file(MAKE_DIRECTORY ${printed})
find_program(GZIP_PROGRAM gzip REQUIRED)
add_custom_command(
  OUTPUT ${printed}/harpkeep.1.gz ${printed}/harpkeep.bash ${printed}/_harpkeep
  COMMAND harpkeep manual > ${printed}/harpkeep.1
  COMMAND ${GZIP_PROGRAM} --force --best --no-name ${printed}/harpkeep.1
  COMMAND harpkeep completion bash > ${printed}/harpkeep.bash
  COMMAND harpkeep completion zsh > ${printed}/_harpkeep
  DEPENDS harpkeep COMMENT "printing the manual page and the completions" VERBATIM)
add_custom_target(harpkeep_printed ALL
                  DEPENDS ${printed}/harpkeep.1.gz ${printed}/harpkeep.bash ${printed}/_harpkeep)

set(doc_folder ${CMAKE_INSTALL_DATADIR}/doc/harpkeep)
install(TARGETS harpkeep RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
install(FILES ${printed}/harpkeep.1.gz DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
install(FILES ${printed}/harpkeep.bash DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions
        RENAME harpkeep)
install(FILES ${printed}/_harpkeep DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions)
install(FILES assets/harpkeep.desktop DESTINATION ${CMAKE_INSTALL_DATADIR}/applications)
install(FILES assets/harpkeep.svg DESTINATION ${CMAKE_INSTALL_DATADIR}/icons/hicolor/scalable/apps)
foreach(size 16 24 32 48 64 128 256)
  install(FILES assets/icons/harpkeep-${size}.png
          DESTINATION ${CMAKE_INSTALL_DATADIR}/icons/hicolor/${size}x${size}/apps RENAME harpkeep.png)
endforeach()
install(FILES README.md DESTINATION ${doc_folder})
install(FILES LICENSE DESTINATION ${doc_folder} RENAME copyright)
install(DIRECTORY docs/ DESTINATION ${doc_folder}/docs)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME harpkeep)
set(CPACK_PACKAGE_VENDOR "the harpkeep project")
set(CPACK_PACKAGE_CONTACT "the harpkeep project <harpkeep@example.org>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "${PROJECT_DESCRIPTION}")
set(CPACK_DEBIAN_PACKAGE_DESCRIPTION
    "harpkeep listens to the strings of a harp in all positions of its pedals or
levers, live or from a recording, measures each step with its uncertainty,
keeps regulation, strings, visits, climate and loans in one ledger file, and
says what it all means, on the screen, in the terminal and on paper.")
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION sound)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
# Opened at run time, so that nothing in the program names them: the font of paper and window, and OpenGL.
set(CPACK_DEBIAN_PACKAGE_DEPENDS "fonts-dejavu-core, libgl1")
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS "libgl1-mesa-dri")
set(CPACK_STRIP_FILES ON)
set(CPACK_PACKAGE_INSTALL_DIRECTORY harpkeep)
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
include(CPack)
