@echo off
setlocal
rem Builds Coldpeel when it is not built yet (or with COLDPEEL_BUILD=1), then runs it.
set "here=%~dp0"
set "program=%here%artifacts\bin\Coldpeel.Cli\release\coldpeel.dll"
where dotnet >nul 2>nul || (
  echo coldpeel: the .NET SDK 10 is needed, and no 'dotnet' was found: install it, then try again. 1>&2
  exit /b 2
)
powershell -NoProfile -Command "$p='%program%'; if (!(Test-Path $p)) { exit 1 }; $t=(Get-Item $p).LastWriteTimeUtc; $n=Get-ChildItem -Recurse -File '%here%src' | Where-Object { $_.LastWriteTimeUtc -gt $t } | Select-Object -First 1; if ($n) { exit 1 }"
if errorlevel 1 (
  echo coldpeel: building once ^(about a minute the first time^)... 1>&2
  dotnet build "%here%src\Cli\Coldpeel.Cli.csproj" -c Release --nologo -v quiet -clp:NoSummary 1>&2 || exit /b 3
)
dotnet "%program%" %*
