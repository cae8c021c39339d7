using System.Globalization;
using Coldpeel.Cli;
using Spectre.Console.Cli;

// Figures and dates look alike on every machine; the owner's own language is in the owner's own files.
CultureInfo.DefaultThreadCurrentCulture = CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
Console.OutputEncoding = System.Text.Encoding.UTF8;

// The artwork verb has two trials of its own beside reading a file: they come as its first word.
var trial = args is ["artwork", "target" or "wedge", ..];
var app = new CommandApp();
app.Configure(config =>
{
    config.SetApplicationName(trial ? "coldpeel artwork" : "coldpeel");
    config.UseStrictParsing();
    config.PropagateExceptions();
    config.SetInterceptor(new WrongCommand.Values());
    if (trial)
    {
        config
            .AddCommand<TargetCommand>("target")
            .WithDescription("Print a test target; turn its ticks into limits of the process.");
        config
            .AddCommand<WedgeCommand>("wedge")
            .WithDescription("Print a step wedge; turn its readings into a curve of dot gain.");
        return;
    }

    config.AddCommand<ServeCommand>("serve").WithDescription("Open the workshop in a browser.");
    config
        .AddCommand<DemoCommand>("demo")
        .WithDescription("The same with a throw-away workshop full of invented data.");
    config
        .AddCommand<MakeCommand>("make")
        .WithDescription("An order (JOB.json) into everything needed at the printer and at the press.");
    config
        .AddCommand<ArtworkCommand>("artwork")
        .WithDescription("Read artwork, make the white plane, tell what may not survive the press.");
    config
        .AddCommand<SheetsCommand>("sheets")
        .WithDescription("Lay pieces (PIECES.json) on as few transfer sheets as possible.");
    config
        .AddCommand<HeatCommand>("heat")
        .WithDescription("Temperature through a stack (STACK.json) under the press, over time.");
    config.AddCommand<BackupCommand>("backup").WithDescription("All of a workshop in one file.");
    config.AddCommand<RestoreCommand>("restore").WithDescription("A backup in the place of all that is in a workshop.");
    config.AddCommand<ExportCommand>("export").WithDescription("Everything a workshop keeps, as JSON, CSV and files.");
    config.AddCommand<PlanCommand>("plan").WithDescription("Plan the presses and hands of a day (DAY.json).");
});

// The first Ctrl-C ends a search with the best found so far; the second ends the program.
using var stop = new CancellationTokenSource();
Console.CancelKeyPress += (_, pressed) =>
{
    pressed.Cancel = !stop.IsCancellationRequested;
    stop.Cancel();
};

try
{
    return await app.RunAsync(trial ? args[1..] : args, stop.Token);
}
catch (Exception wrong) when (wrong is CommandAppException or WrongCommand.EmptyValueException)
{
    return Terminal.Refuse(WrongCommand.Say(wrong, args));
}
catch (OperationCanceledException)
{
    Terminal.Say("coldpeel: stopped; nothing was written.");
    return Exit.WrongInput;
}
catch (Exception fault) when (Environment.GetEnvironmentVariable("COLDPEEL_TRACE") is null)
{
    Terminal.Say(
        $"coldpeel: a fault of ours ({fault.GetType().Name}: {fault.Message.ReplaceLineEndings(" ")}). Nothing was written. "
            + "Run again with COLDPEEL_TRACE=1 for the details to report."
    );
    return Exit.OurFault;
}
