using System.Reflection;
using System.Text.RegularExpressions;
using Coldpeel.Workshop.Findings;
using Spectre.Console.Cli;

namespace Coldpeel.Cli;

/// <summary>A command line that cannot be understood, in the words of whoever typed it.</summary>
internal static partial class WrongCommand
{
    // The parser's own name for a value that was left out at the end of the line.
    private const string LeftOut = "__default_command";

    /// <summary>What is wrong, and with which option.</summary>
    public static Fault Say(Exception wrong, IReadOnlyList<string> args)
    {
        var message = wrong.Message.ReplaceLineEndings(" ").Trim();
        var verb = args is [var first, ..] && first[0] != '-' && !Unknown().IsMatch(message) ? $" {first}" : "";
        var mend = $"Try 'coldpeel{verb} --help'.";
        if (wrong is EmptyValueException empty)
        {
            return new(empty.Name, "has no value.", mend);
        }

        if (Unconverted().Match(message) is not { Success: true } found)
        {
            return new("The command", message, mend);
        }

        var value = found.Groups[1].Value;
        return value == LeftOut
            ? new(args[^1], "has no value.", mend)
            : new(OptionOf(value, args), $"“{value}” is no number that it takes; write it like 12 or 0.5.", mend);
    }

    private static string OptionOf(string value, IReadOnlyList<string> args)
    {
        for (var i = args.Count - 1; i > 0; i--)
        {
            if (args[i] == value)
            {
                return args[i - 1];
            }

            if (args[i].StartsWith("--", StringComparison.Ordinal) && args[i].EndsWith(value, StringComparison.Ordinal))
            {
                return args[i][..^(value.Length + 1)];
            }
        }

        return "The command";
    }

    [GeneratedRegex("^Failed to convert '(.*)' to ", RegexOptions.Singleline)]
    private static partial Regex Unconverted();

    [GeneratedRegex("^Unknown command ")]
    private static partial Regex Unknown();

    /// <summary>Refuses an argument or option without its value, which the parser lets through as an empty text or, at the end of the line, as a word of its own.</summary>
    public sealed class Values : ICommandInterceptor
    {
        public void Intercept(CommandContext context, CommandSettings settings)
        {
            foreach (var property in settings.GetType().GetProperties())
            {
                var value = property.GetValue(settings);
                string?[] texts = value is string[] many ? many : [value as string ?? "-"];
                if (texts.Any(t => t == LeftOut || string.IsNullOrWhiteSpace(t)))
                {
                    throw new EmptyValueException(NameOf(property));
                }
            }
        }

        private static string NameOf(PropertyInfo property) =>
            property.GetCustomAttribute<CommandOptionAttribute>() is { } option
                ? $"--{option.LongNames[0]}"
                : property.GetCustomAttribute<CommandArgumentAttribute>()?.ValueName ?? property.Name;
    }

    /// <summary>An argument or option without its value.</summary>
    public sealed class EmptyValueException(string name) : Exception
    {
        public string Name => name;
    }
}
