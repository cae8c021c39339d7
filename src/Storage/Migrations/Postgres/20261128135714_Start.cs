using System;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace Coldpeel.Storage.Migrations.Postgres
{
    /// <inheritdoc />
    public partial class Start : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "bench_days",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Name = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    StartMs = table.Column<long>(type: "bigint", nullable: false),
                    ClosedMs = table.Column<long>(type: "bigint", nullable: true),
                    PlanJson = table.Column<string>(type: "text", nullable: false),
                    CardsJson = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_bench_days", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "changes",
                columns: table => new
                {
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    AtMs = table.Column<long>(type: "bigint", nullable: false),
                    Who = table.Column<string>(type: "character varying(100)", maxLength: 100, nullable: false),
                    Of = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: false),
                    Name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    What = table.Column<string>(type: "character varying(1000)", maxLength: 1000, nullable: false),
                    BeforeJson = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_changes", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "devices",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Name = table.Column<string>(type: "character varying(100)", maxLength: 100, nullable: false),
                    Role = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: false),
                    TokenHash = table.Column<string>(type: "character(64)", fixedLength: true, maxLength: 64, nullable: false),
                    JoinedMs = table.Column<long>(type: "bigint", nullable: false),
                    OutMs = table.Column<long>(type: "bigint", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_devices", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "jobs",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    Customer = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    Due = table.Column<DateOnly>(type: "date", nullable: false),
                    MadeAtMs = table.Column<long>(type: "bigint", nullable: false),
                    Stopped = table.Column<bool>(type: "boolean", nullable: false),
                    Warnings = table.Column<int>(type: "integer", nullable: false),
                    Sheets = table.Column<int>(type: "integer", nullable: true),
                    Pieces = table.Column<int>(type: "integer", nullable: true),
                    LeftOut = table.Column<int>(type: "integer", nullable: true),
                    MakespanS = table.Column<int>(type: "integer", nullable: true),
                    BoundS = table.Column<int>(type: "integer", nullable: true),
                    Total = table.Column<decimal>(type: "numeric(18,3)", precision: 18, scale: 3, nullable: true),
                    Currency = table.Column<string>(type: "character varying(3)", maxLength: 3, nullable: true),
                    FindingsJson = table.Column<string>(type: "text", nullable: false),
                    Stage = table.Column<string>(type: "character varying(30)", maxLength: 30, nullable: false),
                    Sought = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_jobs", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "order_marks",
                columns: table => new
                {
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Job = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    Step = table.Column<string>(type: "character varying(30)", maxLength: 30, nullable: false),
                    AtMs = table.Column<long>(type: "bigint", nullable: false),
                    Who = table.Column<string>(type: "character varying(100)", maxLength: 100, nullable: false),
                    Note = table.Column<string>(type: "character varying(1000)", maxLength: 1000, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_order_marks", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "settings",
                columns: table => new
                {
                    Key = table.Column<string>(type: "character varying(100)", maxLength: 100, nullable: false),
                    Value = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_settings", x => x.Key);
                });

            migrationBuilder.CreateTable(
                name: "stock",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    Kind = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: false),
                    Name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    Place = table.Column<string>(type: "character varying(100)", maxLength: 100, nullable: false),
                    Unit = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: false),
                    Count = table.Column<long>(type: "bigint", nullable: false),
                    Least = table.Column<long>(type: "bigint", nullable: false),
                    BondedOn = table.Column<DateOnly>(type: "date", nullable: true),
                    Sought = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_stock", x => x.Id);
                });

            migrationBuilder.CreateTable(
                name: "bench_events",
                columns: table => new
                {
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    DayId = table.Column<int>(type: "integer", nullable: false),
                    Key = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    Saying = table.Column<string>(type: "character varying(20)", maxLength: 20, nullable: false),
                    About = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    Seconds = table.Column<int>(type: "integer", nullable: false),
                    AtMs = table.Column<long>(type: "bigint", nullable: false),
                    ReceivedMs = table.Column<long>(type: "bigint", nullable: false),
                    Who = table.Column<string>(type: "character varying(100)", maxLength: 100, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_bench_events", x => x.Id);
                    table.ForeignKey(
                        name: "FK_bench_events_bench_days_DayId",
                        column: x => x.DayId,
                        principalTable: "bench_days",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "files",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    JobId = table.Column<int>(type: "integer", nullable: false),
                    Name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    Hash = table.Column<string>(type: "character(64)", fixedLength: true, maxLength: 64, nullable: false),
                    Bytes = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_files", x => x.Id);
                    table.ForeignKey(
                        name: "FK_files_jobs_JobId",
                        column: x => x.JobId,
                        principalTable: "jobs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "tickets",
                columns: table => new
                {
                    Id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    JobId = table.Column<int>(type: "integer", nullable: false),
                    Number = table.Column<int>(type: "integer", nullable: false),
                    Json = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_tickets", x => x.Id);
                    table.ForeignKey(
                        name: "FK_tickets_jobs_JobId",
                        column: x => x.JobId,
                        principalTable: "jobs",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "stock_moves",
                columns: table => new
                {
                    Id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    StockId = table.Column<int>(type: "integer", nullable: false),
                    Key = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    AtMs = table.Column<long>(type: "bigint", nullable: false),
                    Who = table.Column<string>(type: "character varying(100)", maxLength: 100, nullable: false),
                    By = table.Column<long>(type: "bigint", nullable: false),
                    Why = table.Column<string>(type: "character varying(1000)", maxLength: 1000, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_stock_moves", x => x.Id);
                    table.ForeignKey(
                        name: "FK_stock_moves_stock_StockId",
                        column: x => x.StockId,
                        principalTable: "stock",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "IX_bench_days_StartMs",
                table: "bench_days",
                column: "StartMs");

            migrationBuilder.CreateIndex(
                name: "IX_bench_events_DayId_Key",
                table: "bench_events",
                columns: new[] { "DayId", "Key" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_changes_Of_Name_Id",
                table: "changes",
                columns: new[] { "Of", "Name", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_devices_TokenHash",
                table: "devices",
                column: "TokenHash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_files_Hash",
                table: "files",
                column: "Hash");

            migrationBuilder.CreateIndex(
                name: "IX_files_JobId_Name",
                table: "files",
                columns: new[] { "JobId", "Name" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_jobs_Due_Name",
                table: "jobs",
                columns: new[] { "Due", "Name" });

            migrationBuilder.CreateIndex(
                name: "IX_jobs_Name",
                table: "jobs",
                column: "Name",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_jobs_Sought",
                table: "jobs",
                column: "Sought");

            migrationBuilder.CreateIndex(
                name: "IX_jobs_Stage_Due_Name",
                table: "jobs",
                columns: new[] { "Stage", "Due", "Name" });

            migrationBuilder.CreateIndex(
                name: "IX_order_marks_Job_Id",
                table: "order_marks",
                columns: new[] { "Job", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_stock_Kind_Name_Place",
                table: "stock",
                columns: new[] { "Kind", "Name", "Place" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_stock_moves_Key",
                table: "stock_moves",
                column: "Key",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "IX_stock_moves_StockId_Id",
                table: "stock_moves",
                columns: new[] { "StockId", "Id" });

            migrationBuilder.CreateIndex(
                name: "IX_tickets_JobId_Number",
                table: "tickets",
                columns: new[] { "JobId", "Number" },
                unique: true);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "bench_events");

            migrationBuilder.DropTable(
                name: "changes");

            migrationBuilder.DropTable(
                name: "devices");

            migrationBuilder.DropTable(
                name: "files");

            migrationBuilder.DropTable(
                name: "order_marks");

            migrationBuilder.DropTable(
                name: "settings");

            migrationBuilder.DropTable(
                name: "stock_moves");

            migrationBuilder.DropTable(
                name: "tickets");

            migrationBuilder.DropTable(
                name: "bench_days");

            migrationBuilder.DropTable(
                name: "stock");

            migrationBuilder.DropTable(
                name: "jobs");
        }
    }
}
